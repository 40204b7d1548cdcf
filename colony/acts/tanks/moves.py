"""The work list of moves: accept a plan, see what is to be done, tick it off."""

from collections.abc import Collection, Sequence
from dataclasses import dataclass
from datetime import date

from sqlmodel import Session, col, select

from colony.records import Animal, Litter, MoveToDo, Tank
from colony.store.journal.journal import tell
from colony.store.lookup import find_animal, find_tank
from colony.store.readers.animals.herd import read_places

_OPEN = (col(MoveToDo.done_on).is_(None), col(MoveToDo.dropped_on).is_(None))


@dataclass(frozen=True)
class PlannedMove:
    """One move of a plan: who, where to, by when and why."""

    tag: str
    tank: str
    by: date
    why: str


@dataclass(frozen=True)
class MoveLine:
    """One move on the work list."""

    tag: str
    litter: str | None
    from_tank: str | None
    to_tank: str
    by: date
    why: str
    overdue: bool


def accept_moves(session: Session, *, moves: Sequence[PlannedMove], today: date) -> list[MoveLine]:
    """Put moves on the work list, in place of those that stand there for the same animals.

    Raises
    ------
    NoSuchTag, NoSuchTank
    """
    for move in moves:
        animal, tank = find_animal(session, move.tag), find_tank(session, move.tank)
        assert animal.id is not None and tank.id is not None  # noqa: S101, PT018 - both were found
        _drop(session, animal.id, today)
        session.add(
            MoveToDo(
                animal_id=animal.id,
                tank_id=tank.id,
                accepted_on=today,
                due_by=move.by,
                why=move.why,
            )
        )
    session.flush()
    tell(session, f"{len(moves)} moves were put on the work list")
    return list_moves(session, today=today)


def list_moves(session: Session, *, today: date) -> list[MoveLine]:
    """What is to be moved, the most urgent first."""
    places = read_places(session, today)
    query = (
        select(MoveToDo, Animal.tag, Litter.code, Tank.code)
        .join(Animal, col(MoveToDo.animal_id) == col(Animal.id))
        .join(Litter, col(Animal.litter_id) == col(Litter.id), isouter=True)
        .join(Tank, col(MoveToDo.tank_id) == col(Tank.id))
        .where(*_OPEN, col(Animal.status) == "present")
        .order_by(col(MoveToDo.due_by), col(Tank.code), col(Animal.tag))
    )
    return [
        MoveLine(
            tag=tag,
            litter=litter,
            from_tank=places.get(row.animal_id),
            to_tank=code,
            by=row.due_by,
            why=row.why,
            overdue=row.due_by < today,
        )
        for row, tag, litter, code in session.exec(query)
    ]


def drop_moves(session: Session, *, tags: Sequence[str], today: date) -> int:
    """Take the moves of these animals off the work list.

    Raises
    ------
    NoSuchTag
    """
    animals = [find_animal(session, tag).id for tag in tags]
    dropped = sum(_drop(session, animal or 0, today) for animal in animals)
    tell(session, f"{dropped} moves were dropped from the work list")
    return dropped


def clear_moves(session: Session, *, roles: Collection[str], today: date) -> None:
    """Take every move into a tank of some roles off the work list."""
    query = (
        select(MoveToDo)
        .join(Tank, col(MoveToDo.tank_id) == col(Tank.id))
        .where(*_OPEN, col(Tank.role).in_(roles))
    )
    for row in session.exec(query):
        row.dropped_on = today
        session.add(row)
    session.flush()


def tick_move(session: Session, *, animal_id: int, tank_id: int, on: date) -> None:
    """Tick off the move of an animal when it is where it was to go."""
    for row in _open(session, animal_id):
        if row.tank_id == tank_id:
            row.done_on = max(on, row.accepted_on)
            session.add(row)
    session.flush()


def _open(session: Session, animal_id: int) -> Sequence[MoveToDo]:
    return session.exec(
        select(MoveToDo).where(
            MoveToDo.animal_id == animal_id,
            *_OPEN,
        )
    ).all()


def _drop(session: Session, animal_id: int, today: date) -> int:
    rows = _open(session, animal_id)
    for row in rows:
        row.dropped_on = today
        session.add(row)
    return len(rows)
