"""What an undo would take back, and why a person should be asked first."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from sqlmodel import Session

from colony.acts.book.history import HistoryLine, line_of
from colony.acts.book.undo import act_to_undo, own_last_acts
from colony.store import clock
from colony.store.journal.entries import RecordedAct
from colony.store.journal.writers import acting_person

IMPORT_ACT = "book import"

MANY_ROWS = 20
"""More rows than that are not taken back unasked; common practice, no source."""

_NAMED = 3


@dataclass(frozen=True)
class Foreseen:
    """The acts that an undo would take back, the newest first, and what speaks for asking."""

    acts: tuple[HistoryLine, ...]
    doubts: tuple[str, ...]

    @property
    def numbers(self) -> list[int]:
        """The numbers of the acts."""
        return [act.number for act in self.acts]

    @property
    def in_words(self) -> str:
        """The acts in words, as part of a sentence."""
        named = "; ".join(f"act {act.number} ({act.summary})" for act in self.acts[:_NAMED])
        more = len(self.acts) - _NAMED
        return f"{named} and {more} more" if more > 0 else named


def foresee_undo(session: Session, *, count: int = 1, number: int | None = None) -> Foreseen:
    """Tell what an undo of one's own last acts, or of one act by its number, would take back.

    Raises
    ------
    NothingToUndo, NoSuchAct, CannotBeUndone
    """
    found = own_last_acts(session, count) if number is None else [act_to_undo(session, number)]
    return Foreseen(tuple(map(line_of, found)), tuple(_doubts(found)))


def _doubts(entries: Sequence[RecordedAct]) -> Iterator[str]:
    """An import, many rows, somebody else's work, or another day's."""
    if any(entry.act == IMPORT_ACT for entry in entries):
        yield "an import"
    rows = len({(step.table, step.key) for entry in entries for step in entry.steps})
    if rows > MANY_ROWS:
        yield f"{rows:,} rows"
    others = sorted({entry.who for entry in entries} - {acting_person()})
    if others:
        yield f"written by {', '.join(others)}"
    days = {entry.at.astimezone().date() for entry in entries}
    if days != {clock.now().astimezone().date()}:
        yield f"written on {', '.join(map(str, sorted(days)))}"
