"""The chain of the journal: each entry holds the digest of the one before it, the book the newest's.

An entry that was changed, taken out or put in later no longer fits the digests that follow.
"""

import hashlib
import json
from collections.abc import Iterable, Mapping
from typing import Any

from sqlalchemy import Connection, select, update
from sqlmodel import Session

from colony.records import BookIdentity, JournalEntry

CHAINED = ("id", "at", "who", "act", "summary", "changes", "act_id", "db_user", "previous")
"""What the digest of an entry is of, in this order."""


def digest_of(entry: Mapping[str, Any]) -> str:
    """SHA-256 (FIPS 180-4) of an entry, as a JSON list of what stands in `CHAINED`."""
    told = json.dumps([entry[name] for name in CHAINED], ensure_ascii=False, separators=(",", ":"))
    return hashlib.sha256(told.encode("utf-8", "surrogatepass")).hexdigest()


def broken_link(entries: Iterable[Mapping[str, Any]], head: str) -> int | None:
    """The first entry that does not hold the digest of the one before it; None where all do.

    Where only the newest does not fit `head`, it is the newest.
    """
    expected: str = ""
    number: int = 0
    for entry in entries:
        number = entry["id"]
        if entry["previous"] != expected:
            return int(number)
        expected = digest_of(entry)
    return None if expected == head else number


def head_of(session: Session) -> str:
    """The digest of the newest act, as the book keeps it."""
    return str(session.connection().execute(select(_BOOK.c.head)).scalar_one())


def move_head(session: Session, entry: JournalEntry) -> None:
    """Let the book keep the digest of the act that was just written."""
    session.connection().execute(update(_BOOK).values(head=digest_of(entry.model_dump())))


def book_id(connection: Connection) -> str:
    """The id of the book, which its backups carry."""
    return str(connection.execute(select(_BOOK.c.id)).scalar_one())


def journal_is_whole(connection: Connection) -> int | None:
    """The first act at which the chain of a book is broken; None where it is whole."""
    head = str(connection.execute(select(_BOOK.c.head)).scalar_one())
    query = select(JournalEntry.__table__).order_by(JournalEntry.__table__.c.id)  # type: ignore[attr-defined] # sqlmodel adds it
    rows = connection.execution_options(yield_per=500).execute(query).mappings()
    return broken_link((dict(row) for row in rows), head)


_BOOK = BookIdentity.__table__  # type: ignore[attr-defined] # sqlmodel adds it
