"""Growing out: measure a pup, note what it ate, keep it back, and see who is ready."""

from dataclasses import dataclass, replace
from datetime import date

from sqlmodel import Session, col, select

from colony.acts.animals.days import refuse_before_life, refuse_ended, refuse_future
from colony.acts.animals.guards import refuse_doubts
from colony.acts.care.foods import refuse_misspelt
from colony.notation.house import show_length
from colony.planning.guards.plausible import (
    doubts_of_first_width,
    doubts_of_forecast,
    doubts_of_growth,
)
from colony.planning.pups.growth import Width, forecast
from colony.planning.pups.growth_flags import trusted_widths
from colony.records import Animal, Feeding, Measurement, Species
from colony.store.journal.journal import tell
from colony.store.lookup import find_animal
from colony.store.readers.animals.lives import Life, read_lives

WEEK_DAYS = 7

FEWEST_WIDTHS = 2
"""Before so many widths an animal's own growth foretells nothing."""


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
    anyway: bool = False,
    today: date,
    note: str | None = None,
) -> Measured:
    """Write down disc width (tail excluded) and mass; a second time on one day corrects the first.

    A width that can hardly be meant is asked about, and with `anyway` written as measured.

    Raises
    ------
    NoSuchTag, NotHere, NotYet, EndsBeforeItBegan, HardlyMeant
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
    measured = _measured(animal.tag, row, before)
    doubts = _doubts(session, animal, measured)
    return replace(measured, warnings=refuse_doubts(doubts, anyway=anyway))


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
    if before is not None and before.width_mm is not None and row.width_mm is not None:
        growth_mm = row.width_mm - before.width_mm
        per_week = growth_mm / (row.measured_on - before.measured_on).days * WEEK_DAYS
    return Measured(
        tag=tag,
        measured_on=row.measured_on,
        disc_width_mm=row.width_mm,
        mass_g=row.mass_g,
        since=before.measured_on if before else None,
        growth_mm=growth_mm,
        growth_mm_per_week=None if per_week is None else round(per_week, 2),
        warnings=(),
    )


def _doubts(session: Session, animal: Animal, measured: Measured) -> tuple[str, ...]:
    """What is odd of a width: by the last one, by its own forecast; of the first, by its species."""
    lives = _lives(session, animal)
    if measured.growth_mm is not None and measured.growth_mm_per_week is not None:
        return doubts_of_growth(
            animal.tag, measured.growth_mm, measured.growth_mm_per_week
        ) or _doubts_of_forecast(session, animal, measured, lives)
    if measured.disc_width_mm is None or animal.species_id is None:
        return ()
    traits = lives.traits
    greatest = max(traits["asymptotic_width_female_mm"], traits["asymptotic_width_male_mm"])
    return doubts_of_first_width(
        animal.tag, measured.disc_width_mm, traits["birth_width_mm"], greatest
    )


def _doubts_of_forecast(
    session: Session, animal: Animal, measured: Measured, lives: Life
) -> tuple[str, ...]:
    """What is odd of a width beside what the animal's own earlier widths, two at least, foretell."""
    rows = session.exec(
        select(col(Measurement.measured_on), col(Measurement.width_mm)).where(
            Measurement.animal_id == animal.id,
            col(Measurement.measured_on) < measured.measured_on,
            col(Measurement.width_mm).is_not(None),
        )
    )
    widths = [Width(day, width_mm or 0) for day, width_mm in rows]
    if len(widths) < FEWEST_WIDTHS:
        return ()
    # The fit loads numpy, which most acts do without.
    from colony.planning.pups.growth_fit import fit_own  # noqa: PLC0415

    curve = fit_own(trusted_widths(widths).kept, lives.growth(animal.sex))
    ahead = forecast(curve, measured.measured_on)
    return doubts_of_forecast(animal.tag, measured.disc_width_mm or 0, ahead.low_mm, ahead.high_mm)


def _lives(session: Session, animal: Animal) -> Life:
    species = session.get(Species, animal.species_id) if animal.species_id else None
    return read_lives(session).of(species.name if species else None)
