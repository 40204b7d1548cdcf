"""What is measured of a pup, and what it eats."""

from datetime import date
from typing import ClassVar

from sqlalchemy import UniqueConstraint
from sqlmodel import Field, SQLModel

from colony.records.columns import STRICT, checks
from colony.records.rules import Rules, is_day, is_flag, one_at_least, positive


class Measurement(SQLModel, table=True):
    """Disc width (tail excluded) and mass of an animal on a day."""

    RULES: ClassVar[Rules] = (
        is_day("measured_on"),
        positive("width_mm"),
        positive("mass_g"),
        one_at_least(
            "width_mm",
            "mass_g",
            "something_was_measured",
            "A measurement has a width_mm or a mass_g",
        ),
    )
    __table_args__ = (*checks(RULES), UniqueConstraint("animal_id", "measured_on"), STRICT)

    id: int | None = Field(default=None, primary_key=True)
    animal_id: int = Field(foreign_key="animal.id")
    measured_on: date
    width_mm: int | None = None
    mass_g: int | None = None
    note: str | None = None


class Feeding(SQLModel, table=True):
    """A food offered to an animal on a day, and whether it took it."""

    RULES: ClassVar[Rules] = (
        is_day("fed_on"),
        is_flag("took"),
    )
    __table_args__ = (*checks(RULES), UniqueConstraint("animal_id", "fed_on", "food"), STRICT)

    id: int | None = Field(default=None, primary_key=True)
    animal_id: int = Field(foreign_key="animal.id")
    fed_on: date
    food: str
    took: bool
