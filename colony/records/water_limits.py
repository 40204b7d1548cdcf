"""What the breeder holds the water to."""

from sqlalchemy import CheckConstraint, Index, UniqueConstraint, text
from sqlmodel import Field, SQLModel

from colony.notation.care import PARAMETERS, UNIONISED
from colony.records.columns import STRICT, one_of


class WaterLimit(SQLModel, table=True):
    """The breeder's own bounds of a parameter for a species, or for all, with their source."""

    __tablename__ = "water_limit"
    __table_args__ = (
        UniqueConstraint("species_id", "parameter"),
        Index(
            "ux_water_limit_of_all",
            "parameter",
            unique=True,
            sqlite_where=text("species_id IS NULL"),
            postgresql_where=text("species_id IS NULL"),
        ),
        one_of("parameter", (*PARAMETERS, UNIONISED)),
        CheckConstraint("low IS NOT NULL OR high IS NOT NULL", name="bounds_something"),
        CheckConstraint("low < high", name="low_is_below_high"),
        STRICT,
    )

    id: int | None = Field(default=None, primary_key=True)
    species_id: int | None = Field(default=None, foreign_key="species.id")
    parameter: str
    low: float | None = None
    high: float | None = None
    source: str
