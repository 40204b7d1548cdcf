"""The book itself: its identity, its journal, one row an act, and its settings."""

from sqlalchemy import Index
from sqlmodel import Field, SQLModel

from colony.records.columns import STRICT


class BookIdentity(SQLModel, table=True):
    """Which book this is: an id that its backups carry, and the digest of its newest act."""

    __tablename__ = "book"
    __table_args__ = (STRICT,)

    id: str = Field(primary_key=True)
    begun: str
    head: str


class JournalEntry(SQLModel, table=True):
    """One act: when (UTC, ISO 8601), who, which, and each row before and after as JSON.

    Append-only: the database refuses to change, delete or replace an entry (triggers of the
    schema). `act_id` is the id that its writer gave it, so that it is not written twice;
    `db_user` the user that the database itself knows; `previous` the digest of the entry before.
    """

    __tablename__ = "journal"
    __table_args__ = (STRICT,)

    id: int | None = Field(default=None, primary_key=True)
    at: str
    who: str
    act: str
    summary: str
    changes: str
    act_id: str = Field(unique=True)
    db_user: str | None = None
    previous: str


class JournalPlace(SQLModel, table=True):
    """A row that an act touched or that one of its rows belongs to; made from the journal alone.

    `place` is a table, or ``animal.tag``, ``tank.code`` for a name that was given, or ``undoes``
    for the number of an act that was undone.
    """

    __tablename__ = "journal_place"
    __table_args__ = (Index("ix_journal_place_place_key", "place", "key", "entry_id"), STRICT)

    entry_id: int = Field(foreign_key="journal.id", primary_key=True)
    place: str = Field(primary_key=True)
    key: str = Field(primary_key=True)


class Setting(SQLModel, table=True):
    """One choice of this book, as text; `colony.store.settings` knows its type and default."""

    __table_args__ = (STRICT,)

    key: str = Field(primary_key=True)
    value: str
