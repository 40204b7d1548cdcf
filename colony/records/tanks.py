"""Systems of shared water, the tanks on them, and which animal is where from when to when."""

from datetime import date
from typing import ClassVar

from sqlalchemy import Index, text
from sqlmodel import Field, SQLModel

from colony.notation.words import ROLES
from colony.records.columns import STRICT, checks
from colony.records.rules import Rule, Rules, in_order, is_day, one_of, positive


class System(SQLModel, table=True):
    """Tanks that share water; `started` is when its filter began to mature."""

    RULES: ClassVar[Rules] = (
        positive("volume_l"),
        is_day("started"),
    )
    __table_args__ = (*checks(RULES), STRICT)

    id: int | None = Field(default=None, primary_key=True)
    name: str = Field(unique=True)
    volume_l: int | None = None
    started: date | None = None
    note: str | None = None


class Tank(SQLModel, table=True):
    """One tank, rectangular (length and width) or round (diameter)."""

    RULES: ClassVar[Rules] = (
        one_of("role", ROLES),
        positive("length_mm"),
        positive("width_mm"),
        positive("diameter_mm"),
        positive("water_height_mm"),
        positive("volume_l"),
        is_day("retired_on"),
        Rule(
            "is_rectangular_or_round",
            ("length_mm", "width_mm", "diameter_mm"),
            "(length_mm IS NULL) = (width_mm IS NULL)"
            " AND (length_mm IS NULL) <> (diameter_mm IS NULL)",
            lambda row: (
                (row["length_mm"] is None)
                == (row["width_mm"] is None)
                != (row["diameter_mm"] is None)
            ),
            "A tank has a length and a width, or a diameter",
        ),
    )
    __table_args__ = (*checks(RULES), STRICT)

    id: int | None = Field(default=None, primary_key=True)
    code: str = Field(unique=True)
    system_id: int = Field(foreign_key="system.id", index=True)
    role: str
    length_mm: int | None = None
    width_mm: int | None = None
    diameter_mm: int | None = None
    water_height_mm: int | None = None
    volume_l: int | None = None
    walking_order: int | None = None
    retired_on: date | None = None
    note: str | None = None


class Placement(SQLModel, table=True):
    """An animal in a tank from a day; `left_on` is the first day that it is elsewhere.

    The database itself refuses two tanks on one day (triggers of the schema).
    """

    RULES: ClassVar[Rules] = (
        is_day("entered_on"),
        is_day("left_on"),
        in_order("entered_on", "left_on", "leaves_after_entering", strictly=True),
    )
    __table_args__ = (
        *checks(RULES),
        Index(
            "ux_placement_open",
            "animal_id",
            unique=True,
            # The schema script says the same to PostgreSQL; said here it would load that dialect.
            sqlite_where=text("left_on IS NULL"),
        ),
        STRICT,
    )

    id: int | None = Field(default=None, primary_key=True)
    animal_id: int = Field(foreign_key="animal.id", index=True)
    tank_id: int = Field(foreign_key="tank.id", index=True)
    entered_on: date
    left_on: date | None = None
    why: str | None = None
