"""What was done in this book, by whom and when, as a person reads it."""

import datetime as dt
from dataclasses import dataclass

from sqlmodel import Session

from colony.refusals.history import NoSuchAct
from colony.store.journal.affected import acts_of, name_place, rows_named
from colony.store.journal.entries import (
    RecordedAct,
    entries_numbered,
    read_entries,
    undone_acts,
)
from colony.store.journal.rows import Place
from colony.store.lookup import find_animal, find_tank

LAST_NUMBER = 2**63 - 1
"""No row of a database has a greater number."""


@dataclass(frozen=True)
class HistoryLine:
    """One act: its number in the journal, the moment (UTC), who, which, and what it did."""

    number: int
    at: dt.datetime
    who: str
    act: str
    summary: str
    undone_by: int | None = None


@dataclass(frozen=True)
class HistoryFilter:
    """Which acts are wanted: of an animal, of a tank, from and to a day, of a kind."""

    animal: str | None = None
    tank: str | None = None
    since: dt.date | None = None
    until: dt.date | None = None
    act: str | None = None


def list_history(
    session: Session, *, wanted: HistoryFilter | None = None, most: int | None = None
) -> list[HistoryLine]:
    """The acts of the book, the newest first; `most` of them at most.

    An act is of an animal when it changed the animal or something that belongs to it: its
    placements, measurements, pairings, litters. Days are those of this computer's time zone.

    Raises
    ------
    NoSuchTag, NoSuchTank
    """
    wanted = wanted or HistoryFilter()
    undone = undone_acts(session)
    if wanted.animal is None and wanted.tank is None:
        entries = read_entries(session, newest_first=True)
    else:
        entries = entries_numbered(session, _acts_of(session, wanted))
    lines: list[HistoryLine] = []
    for entry in entries:
        if len(lines) == most:
            break
        day = entry.at.astimezone().date()
        in_days = (wanted.since or day) <= day <= (wanted.until or day)
        if in_days and (wanted.act or "").casefold() in entry.act.casefold():
            lines.append(line_of(entry, undone.get(entry.number)))
    return lines


def show_act(session: Session, *, number: int) -> RecordedAct:
    """One act with each row before and after; `NoSuchAct` where there is none."""
    found = read_entries(session, after=number - 1) if 0 < number <= LAST_NUMBER else iter(())
    entry = next(found, None)
    if entry is None or entry.number != number:
        raise NoSuchAct(number)
    return entry


def line_of(entry: RecordedAct, undone_by: int | None = None) -> HistoryLine:
    """An entry of the journal as a line of the history."""
    return HistoryLine(entry.number, entry.at, entry.who, entry.act, entry.summary, undone_by)


def _acts_of(session: Session, wanted: HistoryFilter) -> list[int]:
    """The numbers of the acts that touch the animal and the tank that are wanted, newest first."""
    asked = [
        acts_of(session, _places(session, table, name))
        for table, name in (("animal", wanted.animal), ("tank", wanted.tank))
        if name is not None
    ]
    return sorted(set.intersection(*asked), reverse=True)


def _places(session: Session, table: str, name: str) -> set[Place]:
    """Rows that have, or once had, a tag or code; one that was undone has only its history."""
    named = sorted(acts_of(session, [name_place(table, name)]))
    places = rows_named(entries_numbered(session, named), table, name)
    if not places:
        row = find_animal(session, name) if table == "animal" else find_tank(session, name)
        places = {(table, row.id or 0)}
    return places
