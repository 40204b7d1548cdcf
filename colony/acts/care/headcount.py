"""Headcounts: how many were seen in a tank, against how many the book has there."""

import re
from dataclasses import dataclass
from datetime import date

from sqlmodel import Session, col, select

from colony.acts.animals.days import refuse_future
from colony.acts.care.ticks import note_done
from colony.records import Animal, CareDone, Placement, Tank
from colony.store.journal.journal import tell
from colony.store.lookup import find_tank
from colony.store.readers.animals.herd import lives_there


@dataclass(frozen=True)
class Headcount:
    """A headcount, who should be there, and what does not agree."""

    tank: str
    on: date
    counted: int
    in_the_book: tuple[str, ...]
    warnings: tuple[str, ...]


@dataclass(frozen=True)
class LastHeadcount:
    """How many were seen last in a tank, and how many the book had there that day."""

    on: date
    counted: int
    booked: int


_COUNTED = re.compile(r"counted (\d+), the book has (\d+)")


def last_headcounts(session: Session, since: date = date.min) -> dict[str, LastHeadcount]:
    """The last headcount of each tank, by its code."""
    query = (
        select(col(Tank.code), col(CareDone.done_on), col(CareDone.note))
        .select_from(CareDone)
        .join(Tank, col(CareDone.tank_id) == col(Tank.id))
        .where(
            col(CareDone.task) == "headcount",
            col(CareDone.note).is_not(None),
            col(CareDone.done_on) >= since,
        )
        .order_by(col(CareDone.done_on), col(CareDone.id))
    )
    read = ((code, on, _COUNTED.match(note or "")) for code, on, note in session.exec(query))
    return {code: LastHeadcount(on, int(said[1]), int(said[2])) for code, on, said in read if said}


def count_heads(session: Session, *, tank: str, counted: int, on: date, today: date) -> Headcount:
    """Write down how many animals were seen in a tank, and tick its headcount off.

    Raises
    ------
    NoSuchTank, NotYet
    """
    refuse_future("A headcount", on, today)
    home = find_tank(session, tank)
    query = (
        select(Animal.tag)
        .join(Placement, col(Placement.animal_id) == col(Animal.id))
        .where(
            Placement.tank_id == home.id,
            lives_there(on),
        )
        .order_by(col(Animal.id))
    )
    there = tuple(session.exec(query))
    note = f"counted {counted}, the book has {len(there)}"
    note_done(session, task="headcount", place=home.code, on=on, note=note)
    tell(session, f"{home.code}: {note}")
    warnings = () if counted == len(there) else (f"{home.code}: {note}: {', '.join(there)}.",)
    return Headcount(home.code, on, counted, there, warnings)
