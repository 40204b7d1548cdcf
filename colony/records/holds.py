"""Health holds, and what was done with an animal although something stood against it."""

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


class Overruling(SQLModel, table=True):
    """What stood against an act with an animal, and why the breeder did it all the same."""

    RULES: ClassVar[Rules] = (is_day("decided_on"),)
    __table_args__ = (*checks(RULES), STRICT)

    id: int | None = Field(default=None, primary_key=True)
    animal_id: int = Field(
        foreign_key="animal.id", index=True, description="With whom it was done."
    )
    other_id: int | None = Field(
        default=None, foreign_key="animal.id", description="The other of a pair."
    )
    act: str
    guard: str
    what: str = Field(description="What stood against it, as it was said.")
    why: str = Field(description="Why it was done anyway.")
    decided_on: date = Field(description="The day of the act.")
