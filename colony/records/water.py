"""Water: what was changed, what the reserve held, what tests said."""

from datetime import date
from typing import ClassVar

from sqlalchemy import Index, UniqueConstraint, text
from sqlmodel import Field, SQLModel

from colony.notation.care import PARAMETERS, UNIONISED
from colony.records.columns import STRICT, checks
from colony.records.rules import (
    Rule,
    Rules,
    Values,
    between,
    both_or_none,
    is_day,
    not_negative,
    one_at_least,
    one_of,
    positive,
)

_BOUNDS = " ".join(
    f"WHEN '{name}' THEN value BETWEEN {known.least:g} AND {known.most:g}"
    for name, known in PARAMETERS.items()
)


def _can_be_measured(row: Values) -> bool:
    known = PARAMETERS.get(row["parameter"])
    return known is None or bool(known.least <= row["value"] <= known.most)


class WaterChange(SQLModel, table=True):
    """Litres of a system's water changed on a day."""

    __tablename__ = "water_change"
    RULES: ClassVar[Rules] = (
        is_day("changed_on"),
        positive("litres"),
    )
    __table_args__ = (*checks(RULES), STRICT)

    id: int | None = Field(default=None, primary_key=True)
    system_id: int = Field(foreign_key="system.id", index=True)
    changed_on: date = Field(index=True)
    litres: int
    note: str | None = None


class ReserveReading(SQLModel, table=True):
    """Litres seen in the reserve on a morning, before anything was drawn."""

    __tablename__ = "reserve_reading"
    RULES: ClassVar[Rules] = (
        is_day("read_on"),
        not_negative("litres", "litres_are_not_negative"),
    )
    __table_args__ = (*checks(RULES), STRICT)

    id: int | None = Field(default=None, primary_key=True)
    read_on: date = Field(unique=True)
    litres: int


class WaterTest(SQLModel, table=True):
    """One value of one parameter of a system's water."""

    __tablename__ = "water_test"
    RULES: ClassVar[Rules] = (
        one_of("parameter", tuple(PARAMETERS)),
        is_day("tested_on"),
        not_negative("value", "value_is_not_negative"),
        Rule(
            "value_can_be_measured",
            ("value", "parameter"),
            f"CASE parameter {_BOUNDS} END",
            _can_be_measured,
            "The parameter cannot have this value in its unit",
            in_schema=False,
        ),
    )
    __table_args__ = (
        *checks(RULES),
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
    RULES: ClassVar[Rules] = (
        one_of("parameter", (*PARAMETERS, UNIONISED)),
        one_at_least("low", "high", "bounds_something", "A limit has a low or a high"),
        Rule(
            "low_is_below_high",
            ("high", "low"),
            "low < high",
            lambda row: row["low"] is None or row["high"] is None or row["low"] < row["high"],
            "high must be above low",
        ),
    )
    __table_args__ = (
        *checks(RULES),
        UniqueConstraint("species_id", "parameter"),
        # The schema script has the same for PostgreSQL: said here, it would load that dialect
        # for every reading of a file.
        Index(
            "ux_water_limit_of_all",
            "parameter",
            unique=True,
            sqlite_where=text("species_id IS NULL"),
        ),
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
    RULES: ClassVar[Rules] = (
        is_day("started"),
        positive("every_days"),
        positive("drip_l_a_day"),
        Rule(
            "percent_in_limit",
            ("percent", "most_percent_a_day"),
            "percent > 0 AND percent <= most_percent_a_day",
            lambda row: row["percent"] is None or 0 < row["percent"] <= row["most_percent_a_day"],
            "percent is above 0 and at most the most_percent_a_day",
        ),
        between("most_percent_a_day", 1, 100, "most_is_a_percentage"),
        both_or_none(
            "percent", "every_days", "batches_have_a_rhythm", "A percent goes with its days"
        ),
        one_at_least(
            "percent",
            "drip_l_a_day",
            "water_is_renewed",
            "Water is renewed by a percent or by a drip",
        ),
    )
    __table_args__ = (*checks(RULES), STRICT)

    id: int | None = Field(default=None, primary_key=True)
    system_id: int = Field(foreign_key="system.id", unique=True)
    started: date
    percent: float | None = None
    every_days: int | None = None
    most_percent_a_day: float = 50
    drip_l_a_day: int | None = None
