"""What is measured of a pup, and what it eats."""

from datetime import date

from sqlalchemy import CheckConstraint, UniqueConstraint
from sqlmodel import Field, SQLModel

from colony.records.columns import STRICT, is_day, is_flag, positive


class Measurement(SQLModel, table=True):
    """Disc width (tail excluded) and mass of an animal on a day."""

    __table_args__ = (
        UniqueConstraint("animal_id", "measured_on"),
        is_day("measured_on"),
        positive("width_mm"),
        positive("mass_g"),
        CheckConstraint(
            "width_mm IS NOT NULL OR mass_g IS NOT NULL", name="something_was_measured"
        ),
        STRICT,
    )

    id: int | None = Field(default=None, primary_key=True)
    animal_id: int = Field(foreign_key="animal.id")
    measured_on: date
    width_mm: int | None = None
    mass_g: int | None = None
    note: str | None = None


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
