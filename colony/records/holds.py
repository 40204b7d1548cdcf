"""Health holds: an animal that is neither bred nor sold for a time."""

from datetime import date
from typing import ClassVar

from sqlmodel import Field, SQLModel

from colony.records.columns import STRICT, checks
from colony.records.rules import Rules, in_order, is_day


class Hold(SQLModel, table=True):
    """A health hold from a day to a day; open while `ended` is not known."""

    RULES: ClassVar[Rules] = (
        is_day("started"),
        is_day("ended"),
        in_order("started", "ended"),
    )
    __table_args__ = (*checks(RULES), STRICT)

    id: int | None = Field(default=None, primary_key=True)
    animal_id: int = Field(foreign_key="animal.id", index=True)
    started: date
    ended: date | None = None
    why: str
