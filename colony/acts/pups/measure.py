"""Growing out: measure a pup, note what it ate, keep it back, and see who is ready."""

from dataclasses import dataclass
from datetime import date
from typing import Literal

from sqlmodel import Session, col, select

from colony.acts.animals.days import refuse_before_life, refuse_ended, refuse_future
from colony.acts.care.foods import refuse_misspelt
from colony.notation.measures import show_length
from colony.records import Feeding, Measurement
from colony.store.journal.journal import tell
from colony.store.lookup import find_animal

WEEK_DAYS = 7
IMPLAUSIBLE_MM_A_WEEK = 20
"""Faster than any ray is known to grow; common practice, no source."""

MEASURING_ERROR_MM = 5
"""Widths that differ by less may be of one width; common practice, no source."""


@dataclass(frozen=True)
class Measured:
    """A measurement, and the growth since the last one."""

    tag: str
    measured_on: date
    disc_width_mm: int | None
    mass_g: int | None
    since: date | None
    growth_mm: int | None
    growth_mm_per_week: float | None
    warnings: tuple[str, ...]


def measure(
    session: Session,
    *,
    tag: str,
    width_mm: int | None = None,
    mass_g: int | None = None,
    on: date,
    today: date,
    note: str | None = None,
) -> Measured:
    """Write down disc width (tail excluded) and mass; a second time on one day corrects the first.

    A width smaller than the last is written as measured, and warned of.

    Raises
    ------
    NoSuchTag, NotHere, NotYet, EndsBeforeItBegan
    """
    animal = find_animal(session, tag)
    refuse_ended(animal, "be measured", on)
    refuse_future(f"A measurement of {animal.tag}", on, today)
    refuse_before_life(animal, on)
    assert animal.id is not None  # noqa: S101 - it was found in the book
    before = _last_width(session, animal.id, on)
    row = session.exec(
        select(Measurement).where(Measurement.animal_id == animal.id, Measurement.measured_on == on)
    ).first() or Measurement(animal_id=animal.id, measured_on=on)
    row.width_mm = row.width_mm if width_mm is None else width_mm
    row.mass_g = row.mass_g if mass_g is None else mass_g
    row.note = note or row.note
    session.add(row)
    session.flush()
    tell(session, f"{animal.tag} measured {show_length(row.width_mm)}")
    return _measured(animal.tag, row, before)


def feed(session: Session, *, tag: str, food: str, took: bool, on: date, today: date) -> Feeding:
    """Write down a food offered to an animal and whether it took it.

    Raises
    ------
    NoSuchTag, NotHere, NotYet, EndsBeforeItBegan
    FoodNearAnother
        No such food is on the list or was given before, and one is written nearly so.
    """
    animal = find_animal(session, tag)
    refuse_ended(animal, "be fed", on)
    refuse_future(f"A feeding of {animal.tag}", on, today)
    refuse_before_life(animal, on)
    assert animal.id is not None  # noqa: S101 - it was found in the book
    written = food.casefold()
    refuse_misspelt(session, written)
    row = session.exec(
        select(Feeding).where(
            Feeding.animal_id == animal.id, Feeding.fed_on == on, Feeding.food == written
        )
    ).first() or Feeding(animal_id=animal.id, fed_on=on, food=written, took=took)
    row.took = took
    session.add(row)
    session.flush()
    tell(session, f"{animal.tag} {'took' if took else 'refused'} {written}")
    return row


def _last_width(session: Session, animal_id: int, before: date) -> Measurement | None:
    return session.exec(
        select(Measurement)
        .where(
            Measurement.animal_id == animal_id,
            col(Measurement.measured_on) < before,
            col(Measurement.width_mm).is_not(None),
        )
        .order_by(col(Measurement.measured_on).desc())
    ).first()


def _measured(tag: str, row: Measurement, before: Measurement | None) -> Measured:
    growth_mm = per_week = None
    warnings: tuple[str, ...] = ()
    if before is not None and before.width_mm is not None and row.width_mm is not None:
        growth_mm = row.width_mm - before.width_mm
        per_week = growth_mm / (row.measured_on - before.measured_on).days * WEEK_DAYS
        warnings = _doubts(tag, growth_mm, per_week)
    return Measured(
        tag=tag,
        measured_on=row.measured_on,
        disc_width_mm=row.width_mm,
        mass_g=row.mass_g,
        since=before.measured_on if before else None,
        growth_mm=growth_mm,
        growth_mm_per_week=None if per_week is None else round(per_week, 2),
        warnings=warnings,
    )


def odd_growth(grown_mm: int, mm_a_week: float) -> Literal["shrank", "leapt"] | None:
    """What is odd between two widths, beyond what measuring alone explains."""
    if abs(grown_mm) < MEASURING_ERROR_MM:
        return None
    if grown_mm < 0:
        return "shrank"
    return "leapt" if mm_a_week > IMPLAUSIBLE_MM_A_WEEK else None


def _doubts(tag: str, growth_mm: int, per_week: float) -> tuple[str, ...]:
    match odd_growth(growth_mm, per_week):
        case "shrank":
            less = f"{tag} measured {-growth_mm} mm less than last time"
            return (f"{less}: measure again, rays do not shrink.",)
        case "leapt":
            more = f"{tag} would have grown {per_week:.0f} mm a week"
            return (f"{more}: check the tag and the width.",)
        case _:
            return ()
