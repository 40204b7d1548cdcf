"""The book itself: its journal, one row an act, and its settings."""

from sqlmodel import Field, SQLModel

from colony.records.columns import STRICT


class JournalEntry(SQLModel, table=True):
    """One act: when (UTC, ISO 8601), who, which, and each row before and after as JSON.

    Append-only: the database refuses to change or delete an entry (triggers of the schema).
    """

    __tablename__ = "journal"
    __table_args__ = (STRICT,)

    id: int | None = Field(default=None, primary_key=True)
    at: str
    who: str
    act: str
    summary: str
    changes: str


class Setting(SQLModel, table=True):
    """One choice of this book, as text; `colony.store.settings` knows its type and default."""

    __table_args__ = (STRICT,)

    key: str = Field(primary_key=True)
    value: str
