"""What a pup eats."""

from datetime import date

from sqlalchemy import UniqueConstraint
from sqlmodel import Field, SQLModel

from colony.records.columns import STRICT, is_day, is_flag


class Feeding(SQLModel, table=True):
    """A food offered to an animal on a day, and whether it took it."""

    __table_args__ = (
        UniqueConstraint("animal_id", "fed_on", "food"),
        is_day("fed_on"),
        is_flag("took"),
        STRICT,
    )

    id: int | None = Field(default=None, primary_key=True)
    animal_id: int = Field(foreign_key="animal.id")
    fed_on: date
    food: str
    took: bool
