"""Vet visits: who came, when and why, and what the vet found and wrote, word for word."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from sqlmodel import Session, col, select

from colony.acts.animals.days import refuse_before_life, refuse_future
from colony.notation.cautions import VET
from colony.records import Animal, Prescription, VetPatient, VetVisit
from colony.refusals.health import NobodySeenByVet
from colony.store.journal.journal import tell
from colony.store.lookup import find_animal, find_animals


@dataclass(frozen=True)
class VetPage:
    """One visit; `prescriptions` are the vet's own words."""

    on: date
    vet: str
    why: str
    found: str | None
    animals: tuple[str, ...]
    prescriptions: tuple[str, ...]
    caution: str = VET


@dataclass(frozen=True)
class VetReport:
    """What the vet said and wrote at a visit."""

    vet: str
    why: str
    found: str | None = None
    prescriptions: Sequence[str] = ()


def record_visit(
    session: Session, *, report: VetReport, animals: Sequence[str], on: date, today: date
) -> VetPage:
    """Write down a visit; a prescription is kept as the vet wrote it.

    Raises
    ------
    NobodySeenByVet, NoSuchTag, NotYet, EndsBeforeItBegan
    """
    refuse_future("A vet visit", on, today)
    patients = find_animals(session, animals)
    if not patients:
        raise NobodySeenByVet
    for animal in patients:
        refuse_before_life(animal, on)
    visit = VetVisit(visited_on=on, vet=report.vet, why=report.why, found=report.found)
    session.add(visit)
    session.flush()
    assert visit.id is not None  # noqa: S101 - the flush gave it one
    session.add_all(
        VetPatient(visit_id=visit.id, animal_id=patient.id or 0) for patient in patients
    )
    session.add_all(
        Prescription(visit_id=visit.id, as_written=text) for text in report.prescriptions
    )
    session.flush()
    tell(
        session, f"{report.vet} saw {', '.join(patient.tag for patient in patients)}: {report.why}"
    )
    return _page(session, visit)


def list_visits(
    session: Session, *, tag: str | None = None, since: date | None = None
) -> list[VetPage]:
    """All visits, or those of one animal, the last first."""
    query = select(VetVisit).order_by(col(VetVisit.visited_on).desc(), col(VetVisit.id).desc())
    if tag is not None:
        animal = find_animal(session, tag)
        seen = select(VetPatient.visit_id).where(VetPatient.animal_id == animal.id)
        query = query.where(col(VetVisit.id).in_(seen))
    if since is not None:
        query = query.where(VetVisit.visited_on >= since)
    return [_page(session, visit) for visit in session.exec(query)]


def _page(session: Session, visit: VetVisit) -> VetPage:
    patients = (
        select(Animal.tag)
        .join(VetPatient, col(VetPatient.animal_id) == col(Animal.id))
        .where(VetPatient.visit_id == visit.id)
        .order_by(col(VetPatient.id))
    )
    written = (
        select(Prescription.as_written)
        .where(Prescription.visit_id == visit.id)
        .order_by(col(Prescription.id))
    )
    return VetPage(
        on=visit.visited_on,
        vet=visit.vet,
        why=visit.why,
        found=visit.found,
        animals=tuple(session.exec(patients)),
        prescriptions=tuple(session.exec(written)),
    )
