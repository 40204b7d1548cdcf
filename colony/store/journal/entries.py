"""Read the journal: its entries, what each undid, and a mark to see that the book moved on."""

import datetime as dt
import json
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import groupby

from sqlmodel import Session, col, select

from colony.records import JournalEntry, JournalPlace
from colony.refusals.history import JournalDamaged
from colony.store.journal.steps import Row, RowChange, step_of

_UNDO = '[{"undoes"'
"""How the changes of an undo begin."""

UNDOES = "undoes"
"""In place of a table, where the row that an act touches is an act that it undoes."""

_AT_ONCE = 500
"""Entries that are in memory at a time: the journal outgrows it."""


@dataclass(frozen=True)
class Mark:
    """Where a book stood: its last act and the moment of it; equal marks, unchanged book."""

    number: int
    at: str


@dataclass(frozen=True)
class RecordedAct:
    """One act of the journal."""

    number: int
    at: dt.datetime
    who: str
    act: str
    summary: str
    changes: str

    @cached_property
    def _parsed(self) -> list[Row]:
        try:
            parsed = json.loads(self.changes)
        except (ValueError, RecursionError) as broken:
            raise JournalDamaged(self.number) from broken
        if not isinstance(parsed, list) or not all(isinstance(part, dict) for part in parsed):
            raise JournalDamaged(self.number)
        return parsed

    @cached_property
    def steps(self) -> tuple[RowChange, ...]:
        """Each row before and after, in the order in which they changed."""
        steps = tuple(step_of(part) for part in self._parsed if "undoes" not in part)
        if None in steps:
            raise JournalDamaged(self.number)
        return tuple(step for step in steps if step is not None)

    @cached_property
    def undoes(self) -> tuple[int, ...]:
        """The acts that this one undid."""
        if not self.changes.startswith(_UNDO):
            return ()
        undone = self._parsed[0].get("undoes")
        if not isinstance(undone, list) or not all(isinstance(number, int) for number in undone):
            raise JournalDamaged(self.number)
        return tuple(undone)

    @property
    def changed_nothing(self) -> bool:
        """It only says that something was done, such as a restored backup."""
        return self.changes == "[]"


def latest(session: Session) -> Mark:
    """Mark where the book stands: one cheap query, made for polling and for `Book.act(seen=...)`."""
    newest = session.exec(
        select(JournalEntry.id, JournalEntry.at).order_by(col(JournalEntry.id).desc()).limit(1)
    ).first()
    return Mark(0, "") if newest is None else Mark(newest[0] or 0, newest[1])


def read_entries(
    session: Session, *, after: int = 0, newest_first: bool = False
) -> Iterator[RecordedAct]:
    """Entries of the journal, oldest first unless asked otherwise."""
    number = col(JournalEntry.id)
    query = select(JournalEntry).where(number > after)
    query = query.order_by(number.desc() if newest_first else number).limit(_AT_ONCE)
    page = session.exec(query).all()
    while page:
        for row in page:
            yield entry_of(row)
        last = page[-1].id or 0
        page = session.exec(query.where(number < last if newest_first else number > last)).all()


def entries_numbered(session: Session, numbers: Sequence[int]) -> Iterator[RecordedAct]:
    """The entries of some numbers, in the order of these."""
    for start in range(0, len(numbers), _AT_ONCE):
        wanted = numbers[start : start + _AT_ONCE]
        query = select(JournalEntry).where(col(JournalEntry.id).in_(wanted))
        found = {row.id: row for row in session.exec(query)}
        yield from (entry_of(found[number]) for number in wanted if number in found)


def entry_of(row: JournalEntry) -> RecordedAct:
    """A row of the journal as a value."""
    number = row.id or 0
    return RecordedAct(
        number, moment_of(number, row.at), row.who, row.act, row.summary, row.changes
    )


def moment_of(number: int, at: str) -> dt.datetime:
    """The moment of an act, in UTC; `JournalDamaged` where none is written."""
    try:
        return dt.datetime.fromisoformat(at).astimezone(dt.UTC)
    except (ValueError, OverflowError) as broken:
        raise JournalDamaged(number) from broken


def undone_acts(session: Session) -> dict[int, int]:
    """Each act that is undone now, and the undo that did it; an undone undo counts for nothing."""
    query = (
        select(JournalPlace.entry_id, JournalPlace.key)
        .where(JournalPlace.place == UNDOES)
        .order_by(col(JournalPlace.entry_id).desc())
    )
    undone: dict[int, int] = {}
    for undo, acts in groupby(session.exec(query), key=lambda row: row[0]):
        if undo not in undone:
            undone |= {int(act): undo for _, act in acts}
    return undone


def changed_since(session: Session, mark: Mark) -> Sequence[RecordedAct] | None:
    """The acts since a mark; None where the book is another one now (a backup was restored)."""
    row = session.get(JournalEntry, mark.number)
    if mark.number and (row is None or row.at != mark.at):
        return None
    return list(read_entries(session, after=mark.number))
