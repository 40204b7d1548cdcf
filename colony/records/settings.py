"""The settings of the book."""

from sqlmodel import Field, SQLModel

from colony.records.columns import STRICT


class Setting(SQLModel, table=True):
    """One choice of this book, as text; `colony.store.settings` knows its type and default."""

    __table_args__ = (STRICT,)

    key: str = Field(primary_key=True)
    value: str
