"""Water: what was changed, what the reserve held, what tests said."""

from datetime import date

from sqlalchemy import CheckConstraint, Index, UniqueConstraint, text
from sqlmodel import Field, SQLModel

from colony.notation.care import PARAMETERS, UNIONISED
from colony.records.columns import STRICT, is_day, one_of, positive


class WaterChange(SQLModel, table=True):
    """Litres of a system's water changed on a day."""

    __tablename__ = "water_change"
    __table_args__ = (is_day("changed_on"), positive("litres"), STRICT)

    id: int | None = Field(default=None, primary_key=True)
    system_id: int = Field(foreign_key="system.id", index=True)
    changed_on: date = Field(index=True)
    litres: int
    note: str | None = None


class ReserveReading(SQLModel, table=True):
    """Litres seen in the reserve on a morning, before anything was drawn."""

    __tablename__ = "reserve_reading"
    __table_args__ = (
        is_day("read_on"),
        CheckConstraint("litres >= 0", name="litres_are_not_negative"),
        STRICT,
    )

    id: int | None = Field(default=None, primary_key=True)
    read_on: date = Field(unique=True)
    litres: int


class WaterTest(SQLModel, table=True):
    """One value of one parameter of a system's water."""

    __tablename__ = "water_test"
    __table_args__ = (
        one_of("parameter", tuple(PARAMETERS)),
        is_day("tested_on"),
        CheckConstraint("value >= 0", name="value_is_not_negative"),
        Index("ix_water_test_system_parameter", "system_id", "parameter", "tested_on"),
        STRICT,
    )

    id: int | None = Field(default=None, primary_key=True)
    system_id: int = Field(foreign_key="system.id")
    tested_on: date
    parameter: str
    value: float
    note: str | None = None


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


class WaterRegime(SQLModel, table=True):
    """How a system's water is renewed: a percentage in a rhythm of days, or a constant drip."""

    __tablename__ = "water_regime"
    __table_args__ = (
        is_day("started"),
        positive("every_days"),
        positive("drip_l_a_day"),
        CheckConstraint("percent > 0 AND percent <= most_percent_a_day", name="percent_in_limit"),
        CheckConstraint("most_percent_a_day BETWEEN 1 AND 100", name="most_is_a_percentage"),
        CheckConstraint("(percent IS NULL) = (every_days IS NULL)", name="batches_have_a_rhythm"),
        CheckConstraint("percent IS NOT NULL OR drip_l_a_day IS NOT NULL", name="water_is_renewed"),
        STRICT,
    )

    id: int | None = Field(default=None, primary_key=True)
    system_id: int = Field(foreign_key="system.id", unique=True)
    started: date
    percent: float | None = None
    every_days: int | None = None
    most_percent_a_day: float = 50
    drip_l_a_day: int | None = None
