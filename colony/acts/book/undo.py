"""Go back: undo one's own last acts, or one further back that nothing builds on."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import islice

from sqlmodel import Session

from colony.acts.book.history import HistoryLine, line_of, show_act
from colony.acts.book.undo_judged import take_back_judged
from colony.refusals.history import CannotBeUndone, LaterActDepends, NothingToUndo
from colony.refusals.orders import CannotComeBack
from colony.store.journal.entries import RecordedAct, read_entries, undone_acts
from colony.store.journal.journal import recorder_of, tell
from colony.store.journal.reversal import depends
from colony.store.journal.writers import acting_person
from colony.store.journal.writing import BEGIN_ACT, SCHEMA_ACT


@dataclass(frozen=True)
class Undone:
    """The acts that were undone, the newest first."""

    undone: tuple[HistoryLine, ...]


def undo_last(session: Session, *, count: int = 1) -> Undone:
    """Undo one's own last acts, the newest first; an undo, and what is undone, is passed over.

    Raises
    ------
    NothingToUndo
        There are not so many acts of whoever asks.
    LaterActDepends, ComesBackAgainst, RowIsOtherwise, JournalOutgrown
        An act cannot be taken back; then none of them is.
    """
    return _undo(session, own_last_acts(session, count))


def undo_act(session: Session, *, number: int) -> Undone:
    """Undo one act, wherever it stands; undoing an undo brings back what it took.

    Raises
    ------
    NoSuchAct, CannotBeUndone
    LaterActDepends, ComesBackAgainst
        Later acts build on it, or forbid what comes back; they are named.
    RowIsOtherwise, JournalOutgrown
    """
    return undo_acts(session, numbers=[number])


def undo_acts(session: Session, *, numbers: Sequence[int]) -> Undone:
    """Undo some acts as one, or none of them; they raise what `undo_act` raises."""
    newest_first = sorted(numbers, reverse=True)
    return _undo(session, [act_to_undo(session, number) for number in newest_first])


def own_last_acts(session: Session, count: int) -> list[RecordedAct]:
    """The last acts of whoever asks that an undo would take back, the newest first.

    Raises
    ------
    NothingToUndo
    """
    who = acting_person()
    own = (entry for entry in _standing(session) if entry.who == who)
    last = list(islice(own, max(count, 0)))
    if not last or len(last) < count:
        raise NothingToUndo(count, len(last), who)
    return last


def act_to_undo(session: Session, number: int) -> RecordedAct:
    """The act of a number, if it is one that can be undone.

    Raises
    ------
    NoSuchAct, CannotBeUndone
    """
    entry = show_act(session, number=number)
    undone_by = undone_acts(session).get(number)
    if undone_by is not None:
        raise CannotBeUndone(number, f"act {undone_by} undid it already")
    if not _can_be_undone(entry):
        raise CannotBeUndone(number, "it is part of the beginning of the book")
    return entry


def _undo(session: Session, entries: Sequence[RecordedAct]) -> Undone:
    """Take acts back, the newest first."""
    for entry in entries:
        if any((step.after or {}).get("forgotten_on") for step in entry.steps):
            raise CannotComeBack(entry.number)
    going = {entry.number for entry in entries}
    undone = undone_acts(session)
    since = [
        entry
        for entry in read_entries(session, after=entries[-1].number)
        if entry.number not in undone and entry.number not in going
    ]
    for entry in entries:
        later = [other for other in since if other.number > entry.number]
        blocking = [
            other for other in later if not _cancels(other, entry.number) and depends(other, entry)
        ]
        if blocking:
            acts = [(other.number, _in_words(other)) for other in blocking]
            raise LaterActDepends(_in_words(entry), acts, _own_since(session, entry))
    take_back_judged(session, entries, since)
    for entry in entries:
        tell(session, f"undid {entry.number}: {entry.summary}")
    recorder_of(session).undoes.extend(entry.number for entry in entries)
    return Undone(tuple(line_of(entry) for entry in entries))


def _own_since(session: Session, entry: RecordedAct) -> int | None:
    """How many acts an undo would go back to reach one; None where not all of them are one's own."""
    since = [other for other in _standing(session) if other.number >= entry.number]
    own = all(other.who == acting_person() for other in since)
    return len(since) if own and entry.number in {other.number for other in since} else None


def _cancels(undo: RecordedAct, number: int) -> bool:
    """An undo of acts that are all later than an act leaves no trace on it."""
    return bool(undo.undoes) and min(undo.undoes) > number


def _standing(session: Session) -> Iterator[RecordedAct]:
    """Acts that stand and can be undone, the newest first."""
    undone = undone_acts(session)
    for entry in read_entries(session, newest_first=True):
        if entry.number not in undone and not entry.undoes and _can_be_undone(entry):
            yield entry


def _can_be_undone(entry: RecordedAct) -> bool:
    return not entry.changed_nothing and entry.act not in (BEGIN_ACT, SCHEMA_ACT)


def _in_words(entry: RecordedAct) -> str:
    return f"act {entry.number} ({entry.summary})"
