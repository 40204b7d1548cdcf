"""What is measured of an animal."""

from datetime import date
from typing import ClassVar

from sqlalchemy import UniqueConstraint
from sqlmodel import Field, SQLModel

from colony.records.columns import STRICT, checks
from colony.records.rules import Rules, is_day, one_at_least, positive


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
