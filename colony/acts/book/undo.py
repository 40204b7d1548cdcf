"""Go back: undo the last acts, or one further back that nothing builds on."""

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import islice

from sqlmodel import Session

from colony.acts.book.history import HistoryLine, line_of, show_act
from colony.refusals.history import CannotBeUndone, LaterActDepends, NothingToUndo
from colony.store.journal.entries import Act, read_entries, undone_acts
from colony.store.journal.journal import BEGIN_ACT, SCHEMA_ACT, recorder_of, tell
from colony.store.journal.reversal import depends, take_back


@dataclass(frozen=True)
class Undone:
    """The acts that were undone, the newest first."""

    undone: tuple[HistoryLine, ...]


def undo_last(session: Session, *, count: int = 1) -> Undone:
    """Undo the last acts, the newest first; an undo, and what is undone, is passed over.

    Raises
    ------
    NothingToUndo
        There are not so many acts.
    LaterActDepends, RowIsOtherwise, JournalOutgrown
        An act cannot be taken back; then none of them is.
    """
    last = list(islice(_standing(session), max(count, 0)))
    if not last or len(last) < count:
        raise NothingToUndo(count, len(last))
    return _undo(session, last)


def undo_act(session: Session, *, number: int) -> Undone:
    """Undo one act, wherever it stands; undoing an undo brings back what it took.

    Raises
    ------
    NoSuchAct, CannotBeUndone
    LaterActDepends
        Later acts build on it; it names them.
    RowIsOtherwise, JournalOutgrown
    """
    entry = show_act(session, number=number)
    undone_by = undone_acts(session).get(number)
    if undone_by is not None:
        raise CannotBeUndone(number, f"act {undone_by} undid it already")
    if not _can_be_undone(entry):
        raise CannotBeUndone(number, "it is part of the beginning of the book")
    return _undo(session, [entry])


def _undo(session: Session, entries: list[Act]) -> Undone:
    """Take acts back, the newest first."""
    going: set[int] = set()
    for entry in entries:
        _refuse_depended(session, entry, going)
        take_back(session, entry)
        going.add(entry.number)
        tell(session, f"undid {entry.number}: {entry.summary}")
    recorder_of(session).undoes.extend(entry.number for entry in entries)
    return Undone(tuple(line_of(entry) for entry in entries))


def _refuse_depended(session: Session, entry: Act, going: set[int]) -> None:
    undone = undone_acts(session)
    later = [
        one
        for one in read_entries(session, after=entry.number)
        if one.number not in undone and one.number not in going and not _cancels(one, entry.number)
    ]
    blocking = [one for one in later if depends(one, entry)]
    if blocking:
        since = [one.number for one in _standing(session) if one.number >= entry.number]
        count = len(since) if entry.number in since else None
        raise LaterActDepends(_told(entry), [(one.number, _told(one)) for one in blocking], count)


def _cancels(undo: Act, number: int) -> bool:
    """An undo of acts that are all later than an act leaves no trace on it."""
    return bool(undo.undoes) and min(undo.undoes) > number


def _standing(session: Session) -> Iterator[Act]:
    """Acts that stand and can be undone, the newest first."""
    undone = undone_acts(session)
    for entry in read_entries(session, newest_first=True):
        if entry.number not in undone and not entry.undoes and _can_be_undone(entry):
            yield entry


def _can_be_undone(entry: Act) -> bool:
    return not entry.changed_nothing and entry.act not in (BEGIN_ACT, SCHEMA_ACT)


def _told(entry: Act) -> str:
    return f"act {entry.number} ({entry.summary})"
