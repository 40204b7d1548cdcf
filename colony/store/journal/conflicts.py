"""Two people, one row: refuse a change of what somebody else has changed since it was looked at."""

from collections.abc import Iterator, Sequence

from sqlmodel import Session

from colony.refusals.history import BookWasReplaced, ChangedMeanwhile
from colony.store.journal.entries import Mark, RecordedAct, changed_since
from colony.store.journal.reversal import changed_columns, overlaps
from colony.store.journal.steps import RowChange


def refuse_conflicts(session: Session, seen: Mark, steps: Sequence[RowChange]) -> None:
    """Refuse steps that touch a column which a later act than `seen` has changed.

    Raises
    ------
    ChangedMeanwhile
        It names each such act: who, when, and what became what.
    BookWasReplaced
        The book is not the one that was seen.
    """
    later = changed_since(session, seen)
    if later is None:
        raise BookWasReplaced
    conflicts = [conflict for entry in later for conflict in _conflicts(entry, steps)]
    if conflicts:
        raise ChangedMeanwhile(conflicts)


def _conflicts(entry: RecordedAct, steps: Sequence[RowChange]) -> Iterator[str]:
    ours = overlaps(changed_columns(entry), steps)
    if ours:
        columns = {name for step in ours for name in step.after or ()}
        places = {(step.table, step.key) for step in ours}
        differ = "".join(
            f", {name.replace('_', ' ')} {_shown(step.before.get(name))} -> {_shown(value)}"
            for step in entry.steps
            if (step.table, step.key) in places and step.before and step.after
            for name, value in step.after.items()
            if name in columns
        )
        at = entry.at.astimezone().strftime("%Y-%m-%d %H:%M")
        yield f"{entry.who} on {at} ({entry.summary}{differ})"


def _shown(value: object) -> str:
    return "none" if value is None else str(value)
