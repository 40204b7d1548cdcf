"""One animal's page: everything on record of it."""

from dataclasses import dataclass
from datetime import date
from typing import Any

from sqlmodel import Session, col, select

from colony.records import Animal, Feeding, Hold, Litter, Measurement, Placement, Tank
from colony.store.lookup import find_animal
from colony.store.readers.animals.herd import read_places
from colony.store.readers.animals.listed import age_days
from colony.store.readers.pedigree import read_lineage


@dataclass(frozen=True)
class AnimalDetails:
    """Everything on record of one animal."""

    tag: str
    name: str | None
    sex: str
    species: str | None
    line: str | None
    born: str | None
    age_days: int | None
    origin: str
    arrived: date | None
    arrived_from: str | None
    transponder: str | None
    status: str
    ended_on: date | None
    ended_why: str | None
    held_back: bool
    reserved_for: str | None
    breeding_ban: str | None
    mature_since: date | None
    note: str | None
    dam: str | None
    sires: list[str]
    litter: str | None
    inbreeding: float
    inbreeding_low: float
    inbreeding_high: float
    completeness: float
    tank: str | None
    pups: list[str]
    widths: list[dict[str, Any]]
    placements: list[dict[str, Any]]
    feedings: list[dict[str, Any]]
    holds: list[dict[str, Any]]


def show_animal(session: Session, *, tag: str, today: date) -> AnimalDetails:
    """One animal's page; `NoSuchTag` where there is none."""
    animal = find_animal(session, tag)
    lineage = read_lineage(session)
    assert animal.id is not None  # noqa: S101 - it was found in the book
    row = lineage.herd.by_id(animal.id)
    kin = lineage.range_of([animal.id])[0]
    return AnimalDetails(
        **_own_facts(animal),
        species=row.species,
        born=str(row.birthday) if row.birthday else None,
        age_days=age_days(row.birthday, animal.ended_on or today),
        dam=lineage.parents.tag(lineage.parents.dam_id(row)),
        sires=lineage.parents.written(lineage.parents.sires(row)),
        litter=_litter_code(session, animal),
        inbreeding=kin.inbreeding,
        inbreeding_low=kin.low,
        inbreeding_high=kin.high,
        completeness=kin.completeness,
        tank=read_places(session, today).get(animal.id),
        pups=lineage.pups_of(animal.id),
        **_history(session, animal.id),
    )


def _litter_code(session: Session, animal: Animal) -> str | None:
    litter = session.get(Litter, animal.litter_id) if animal.litter_id else None
    return litter.code if litter else None


_OWN_FACTS = (
    *("tag", "name", "sex", "line", "origin", "arrived", "arrived_from", "transponder", "status"),
    *("ended_on", "ended_why", "held_back", "reserved_for", "breeding_ban", "mature_since", "note"),
)


def _own_facts(animal: Animal) -> dict[str, Any]:
    return {fact: getattr(animal, fact) for fact in _OWN_FACTS}


def _history(session: Session, animal_id: int) -> dict[str, Any]:
    widths = session.exec(
        select(Measurement)
        .where(Measurement.animal_id == animal_id)
        .order_by(col(Measurement.measured_on))
    )
    placements = session.exec(
        select(Placement, Tank.code)
        .join(Tank, col(Placement.tank_id) == col(Tank.id))
        .where(Placement.animal_id == animal_id)
        .order_by(col(Placement.entered_on))
    )
    feedings = session.exec(
        select(Feeding).where(Feeding.animal_id == animal_id).order_by(col(Feeding.fed_on))
    )
    holds = session.exec(
        select(Hold).where(Hold.animal_id == animal_id).order_by(col(Hold.started))
    )
    return {
        "widths": [
            {
                "on": one.measured_on,
                "disc_width_mm": one.width_mm,
                "mass_g": one.mass_g,
                "note": one.note,
            }
            for one in widths
        ],
        "placements": [
            {"tank": code, "entered_on": one.entered_on, "left_on": one.left_on}
            for one, code in placements
        ],
        "feedings": [{"on": one.fed_on, "food": one.food, "took": one.took} for one in feedings],
        "holds": [{"from": one.started, "to": one.ended, "why": one.why} for one in holds],
    }
