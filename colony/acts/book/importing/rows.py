"""Write what an import changes: parents before pups, then where each is and how large."""

from collections.abc import Iterator, Mapping, Sequence
from datetime import date

import networkx as nx
from sqlmodel import Session, select

from colony.acts.animals.leaving import leave_everything
from colony.acts.book.importing.changes import Change, ImportChanges
from colony.acts.book.importing.imported import Progress, by_steps
from colony.acts.book.importing.known_book import BookRows
from colony.notation.shares import SireShare
from colony.records import Animal, Measurement, Placement, PossibleSire

Animals = Mapping[str, Animal]


def write_plan(
    session: Session, plan: ImportChanges, book: BookRows, *, today: date, progress: Progress
) -> None:
    """Write every change; parents may stand anywhere in the file."""
    changes = [*plan.changes, *plan.ancestors]
    report = by_steps(progress, "writing", len(changes))
    animals, done = dict(book.animals), 0
    with session.no_autoflush:
        for generation in _generations(changes):
            for change in generation:
                animals[change.tag.casefold()] = _write_animal(session, change, animals)
                done += 1
                report(done)
            session.flush()
        for change in changes:
            _write_rest(session, change, animals, book, today)
    session.flush()


def _generations(changes: Sequence[Change]) -> Iterator[list[Change]]:
    """Parents before their pups, so that each animal is written once, its parents known."""
    by_fold = {change.tag.casefold(): change for change in changes}
    kin = nx.DiGraph()
    kin.add_nodes_from(by_fold)
    for fold, change in by_fold.items():
        parents = [change.dam, *(one.tag for one in change.sires)]
        named = [tag.casefold() for tag in parents if tag]
        kin.add_edges_from((parent, fold) for parent in named if parent in by_fold)
    for generation in nx.topological_generations(kin):
        yield [by_fold[fold] for fold in generation]


def _write_animal(session: Session, change: Change, animals: Animals) -> Animal:
    facts = dict(change.facts)
    if change.dam:
        facts["dam_id"] = animals[change.dam.casefold()].id
    if change.sires:
        facts["sire_id"] = _sole_sire(change.sires, animals)
    if change.animal is None:
        animal = Animal(tag=change.tag, **facts)
    else:
        animal = change.animal
        for fact, value in facts.items():
            setattr(animal, fact, value)
    session.add(animal)
    return animal


def _sole_sire(sires: Sequence[SireShare], animals: Animals) -> int | None:
    """One known sire stands on the animal; several, or somebody unknown, beside it."""
    only = sires[0].tag if len(sires) == 1 else None
    return animals[only.casefold()].id if only else None


def _write_rest(
    session: Session, change: Change, animals: Animals, book: BookRows, today: date
) -> None:
    animal = animals[change.tag.casefold()]
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
    session: Session, animal: Animal, sires: Sequence[SireShare], animals: Animals
) -> None:
    if animal.sire_id is None:
        ids = [(animals[one.tag.casefold()].id if one.tag else None, one.share) for one in sires]
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
