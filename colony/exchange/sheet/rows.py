"""What one row of a sheet cannot say, by itself or beside what the book says."""

from collections.abc import Iterator, Sequence
from datetime import date

from colony.exchange.folder.noun import NounRow
from colony.exchange.sheet.animals import SHEET
from colony.exchange.sheet.book import BookRows
from colony.exchange.sheet.meaning import ANIMALS, complete, only_named
from colony.exchange.tables.checks import against_rules, names_of_nothing, transponders_twice
from colony.exchange.tables.reading import Source
from colony.exchange.tables.sires import same_sires, sires_of, write_sires
from colony.exchange.text.faults import Fault
from colony.notation.words import SEX_WORDS
from colony.records.rules import Rules
from colony.refusals.base import WrongUse
from colony.refusals.cells import (
    BookHasOtherSex,
    BookHasOtherSires,
    BookHasOtherTank,
    BookSaysOtherwise,
    DaysOutOfOrder,
)

_HAPPENED = {"arrived": "arrived", "ended_on": "ended", "measured_on": "was measured"}

Wrong = tuple[str, WrongUse]


def check_rows(
    source: Source, rows: Sequence[NounRow], book: BookRows, rules: Rules, today: date
) -> list[Fault]:
    """List what each row gets wrong about its own animal."""
    faults = []
    for row in rows:
        known = book.animals.get(row.values["tag"].casefold())
        wrongs = [*_days(row, known), *_against(row, known), *_tank(row, book)]
        faults += [source.fault(row, field, wrong) for field, wrong in wrongs]
    faults += transponders_twice(source, rows, book.animals.values())
    if book.tanks:
        faults += names_of_nothing(source, SHEET, rows, {"tanks": book.tanks})
    bad = {fault.line for fault in faults}
    whole = (
        complete(row, book.animals.get(row.values["tag"].casefold()), today)
        for row in rows
        if row.line not in bad
    )
    return [*faults, *against_rules(source, ANIMALS, whole, rules)]


def _days(row: NounRow, known: NounRow | None) -> Iterator[Wrong]:
    """An animal is born, then arrives, is measured, and leaves."""
    born = row.values.get("born") or (known.values["born"] if known else None)
    for field, happened in _HAPPENED.items():
        day = row.values.get(field)
        if born and day and day.last < born.first:
            cell = next(c for c in (field, "died_on", "sold_on") if c in row.cells)
            yield cell, DaysOutOfOrder(happened, str(day), "was born", str(born))


def _against(row: NounRow, known: NounRow | None) -> Iterator[Wrong]:
    if known is None or only_named(known):
        return
    sex, before, tag = row.values.get("sex", "U"), known.values["sex"], known.values["tag"]
    if "U" not in (sex, before) and sex != before:
        yield "sex", BookHasOtherSex(tag, SEX_WORDS[sex], SEX_WORDS[before], sex)
    if row.values.get("status") == "present" and known.values["status"] != "present":
        ended = f"{known.values['status']} since {known.values['ended_on']}"
        yield "status", BookSaysOtherwise("status", "present", ended, "correct the cell")
    if known.values["litter"]:
        yield from _against_litter(row, known)


def _against_litter(row: NounRow, known: NounRow) -> Iterator[Wrong]:
    """A pup has its parents from its litter; a sheet does not change a litter."""
    dam, before = row.values.get("dam"), known.values["dam"]
    if dam and before and dam.casefold() != before.casefold():
        right = "a pup has its parents from its litter, so correct the cell or the litter"
        yield "dam", BookSaysOtherwise("dam", dam, before, right)
    sires, booked = sires_of(row.values), sires_of(known.values)
    if sires and not same_sires(sires, booked):
        before = write_sires(booked) if booked else "unknown"
        yield "sire", BookHasOtherSires(known.values["litter"], write_sires(sires), before)


def _tank(row: NounRow, book: BookRows) -> Iterator[Wrong]:
    """A sheet does not move an animal; without any tank nothing is checked."""
    tag, tank = row.values["tag"], row.values.get("tank")
    known, here = book.animals.get(tag.casefold()), book.places.get(tag.casefold())
    if (
        tank
        and known
        and here
        and tank.casefold() in book.tanks
        and tank.casefold() != here.casefold()
    ):
        yield "tank", BookHasOtherTank(known.values["tag"], book.tanks[tank.casefold()], here)
