"""Notice that somebody else wrote in the book: its newest act."""

from dataclasses import dataclass

from sqlalchemy import select
from sqlmodel import Session, col

from colony.records import JournalEntry


@dataclass(frozen=True)
class NewestAct:
    """The last act of the journal."""

    number: int
    who: str
    summary: str


def newest_act(session: Session) -> NewestAct | None:
    """The last act that was written, or None in an empty journal."""
    query = select(col(JournalEntry.id), col(JournalEntry.who), col(JournalEntry.summary))
    row = session.execute(query.order_by(col(JournalEntry.id).desc()).limit(1)).first()
    return None if row is None else NewestAct(row[0] or 0, row[1], row[2])
