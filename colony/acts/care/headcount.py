"""Headcounts: how many were seen in a tank, against how many the book has there."""

from dataclasses import dataclass
from datetime import date

from sqlmodel import Session, col, select

from colony.acts.animals.days import refuse_future
from colony.acts.care.ticks import note_done
from colony.records import Animal, Placement
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
