"""Write what an import changes: who there is, then who is whose pup, then where and how large."""

from collections.abc import Mapping
from datetime import date

from sqlmodel import Session, select

from colony.acts.imported import Progress, by_steps
from colony.acts.imported_plan import Change, Plan
from colony.acts.known_book import BookRows
from colony.acts.leaving import leave_everything
from colony.notation.shares import SireShare
from colony.records import Animal, Measurement, Placement, PossibleSire

Animals = Mapping[str, Animal]


def write_plan(
    session: Session, plan: Plan, book: BookRows, *, today: date, progress: Progress
) -> None:
    """Write every change; parents may stand anywhere in the file."""
    changes = [*plan.changes, *plan.ancestors]
    animals = dict(book.animals)
    for change in changes:
        animal = change.animal or Animal(tag=change.tag)
        for fact, value in change.facts.items():
            setattr(animal, fact, value)
        animals[animal.tag.casefold()] = animal
        session.add(animal)
    session.flush()
    report = by_steps(progress, "writing", len(changes))
    with session.no_autoflush:
        for done, change in enumerate(changes, 1):
            _write_rest(session, change, animals, book, today)
            report(done)
    session.flush()


def _write_rest(
    session: Session, change: Change, animals: Animals, book: BookRows, today: date
) -> None:
    animal = animals[change.tag.casefold()]
    if change.dam:
        animal.dam_id = animals[change.dam.casefold()].id
    if change.sires:
        if change.animal:
            _forget_sires(session, _id(animal))
        _write_sires(session, animal, change.sires, animals)
    if change.measured:
        _write_measurement(session, _id(animal), change)
    if change.animal and animal.ended_on and "status" in change.facts:
        leave_everything(session, animal, animal.ended_on)
    if change.tank:
        tank_id = book.tank_ids[change.tank.casefold()]
        session.add(Placement(animal_id=_id(animal), tank_id=tank_id, entered_on=today))


def _forget_sires(session: Session, animal_id: int) -> None:
    """Take out the possible sires that the file replaces."""
    for row in session.exec(select(PossibleSire).where(PossibleSire.animal_id == animal_id)):
        session.delete(row)
    session.flush()


def _write_sires(
    session: Session, animal: Animal, sires: tuple[SireShare, ...], animals: Animals
) -> None:
    """One known sire stands on the animal; several, or somebody unknown, beside it."""
    ids = [(animals[one.tag.casefold()].id if one.tag else None, one.share) for one in sires]
    sole = ids[0][0] if len(ids) == 1 else None
    animal.sire_id = sole
    if sole is None:
        session.add_all(
            PossibleSire(animal_id=animal.id, sire_id=sire, share=share) for sire, share in ids
        )


def _write_measurement(session: Session, animal_id: int, change: Change) -> None:
    """Write sizes of a day, into the measurement of that day if the book has one."""
    assert change.measured is not None  # noqa: S101 - the caller asked
    on, sizes = change.measured
    same_day = select(Measurement).where(
        Measurement.animal_id == animal_id, Measurement.measured_on == on
    )
    booked = session.exec(same_day).first() if change.animal else None
    one = booked or Measurement(animal_id=animal_id, measured_on=on)
    for name, size in sizes.items():
        setattr(one, name, size)
    session.add(one)


def _id(animal: Animal) -> int:
    assert animal.id is not None  # noqa: S101 - the flush gave it one
    return animal.id
