"""What one row of a sheet cannot say, by itself or beside what the book says."""

import math
from collections.abc import Iterator, Sequence

from colony.exchange.sheet.animals import AnimalRow, Sheet
from colony.exchange.sheet.known import KnownAnimal, KnownBook
from colony.exchange.sheet.sires import write_sires
from colony.exchange.text.faults import Fault
from colony.notation.shares import SireShare
from colony.notation.tags import nearest_tags
from colony.refusals.base import WrongUse
from colony.refusals.cells import (
    BookSaysOtherwise,
    DaysOutOfOrder,
    NothingByThatName,
    RowCannotBe,
    TransponderTwice,
)

SEX_WORDS = {"F": "female", "M": "male", "U": "not sexed"}
_HAPPENED = {"arrived": "arrived", "ended_on": "ended", "measured_on": "was measured"}
_SAME_SHARE = 1e-8

Wrong = tuple[str, WrongUse]


def check_rows(sheet: Sheet, rows: Sequence[AnimalRow], book: KnownBook) -> list[Fault]:
    """List what each row gets wrong about its own animal."""
    transponders = {a.transponder: a.tag for a in book.animals.values() if a.transponder}
    faults = []
    for row in rows:
        known = book.animal(row.tag)
        wrongs = [
            *_days(row, known),
            *_against(row, known),
            *_tank(row, known, book),
            *_transponder(row, transponders),
        ]
        faults += [
            sheet.fault(row.line, field, row.cells.get(field, ""), wrong.sentence)
            for field, wrong in wrongs
        ]
    return faults


def _days(row: AnimalRow, known: KnownAnimal | None) -> Iterator[Wrong]:
    """An animal is born, then arrives, is measured, and leaves."""
    born = row.facts.get("born") or (known.born if known else None)
    for field, happened in _HAPPENED.items():
        day = row.facts.get(field)
        if born and day and day.last < born.first:
            cell = next(c for c in (field, "died_on", "sold_on") if c in row.cells)
            yield cell, DaysOutOfOrder(happened, str(day), "was born", str(born))
    if row.facts.get("status") == "present" and (ended := row.facts.get("ended_on")):
        yield "status", RowCannotBe(f"An animal that ended on {ended} is not present")


def _against(row: AnimalRow, known: KnownAnimal | None) -> Iterator[Wrong]:
    if known is None or known.only_named:
        return
    sex = row.facts.get("sex", "U")
    if "U" not in (sex, known.sex) and sex != known.sex:
        right = f"correct the cell, or the book with: animal edit {known.tag}"
        yield "sex", BookSaysOtherwise("sex", SEX_WORDS[sex], SEX_WORDS[known.sex], right)
    if row.facts.get("status") == "present" and known.status != "present":
        ended = f"{known.status} since {known.ended_on}"
        yield "status", BookSaysOtherwise("status", "present", ended, "correct the cell")
    if known.in_litter:
        yield from _against_litter(row, known)


def _against_litter(row: AnimalRow, known: KnownAnimal) -> Iterator[Wrong]:
    """A pup has its parents from its litter; a sheet does not change a litter."""
    right = "a pup has its parents from its litter, so correct the cell or the litter"
    if row.dam and known.dam and row.dam.casefold() != known.dam.casefold():
        yield "dam", BookSaysOtherwise("dam", row.dam, known.dam, right)
    if row.sires and not same_sires(row.sires, known.sires):
        booked = write_sires(known.sires) if known.sires else "unknown"
        yield "sire", BookSaysOtherwise("sire", write_sires(row.sires), booked, right)


def same_sires(some: Sequence[SireShare], others: Sequence[SireShare]) -> bool:
    """Tell whether two ways to write possible sires mean the same."""
    one, other = (
        {sire.tag and sire.tag.casefold(): sire.share for sire in sires} for sires in (some, others)
    )
    return one.keys() == other.keys() and all(
        math.isclose(one[tag], other[tag], abs_tol=_SAME_SHARE) for tag in one
    )


def _tank(row: AnimalRow, known: KnownAnimal | None, book: KnownBook) -> Iterator[Wrong]:
    """A tank is known, and where the book has the animal; without any tank nothing is checked."""
    tank = row.facts.get("tank")
    if tank is None or not book.tanks:
        return
    if tank.casefold() not in book.tanks:
        near = nearest_tags(tank, list(book.tanks.values()))
        yield "tank", NothingByThatName("tank", tank, near)
    elif known and known.tank and known.tank.casefold() != tank.casefold():
        right = f"move it with: tank move {known.tag} {tank}"
        yield "tank", BookSaysOtherwise("tank", tank, known.tank, right)


def _transponder(row: AnimalRow, owners: dict[str, str]) -> Iterator[Wrong]:
    transponder = row.facts.get("transponder")
    if transponder is None:
        return
    owner = owners.setdefault(transponder, row.tag)
    if owner.casefold() != row.fold:
        yield "transponder", TransponderTwice(transponder, owner)
