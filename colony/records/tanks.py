"""Systems of shared water, the tanks on them, and which animal is where from when to when."""

from datetime import date

from sqlalchemy import CheckConstraint, Index, text
from sqlmodel import Field, SQLModel

from colony.notation.words import ROLES
from colony.records.columns import STRICT, is_day, one_of, positive


class System(SQLModel, table=True):
    """Tanks that share water; `started` is when its filter began to mature."""

    __table_args__ = (positive("volume_l"), is_day("started"), STRICT)

    id: int | None = Field(default=None, primary_key=True)
    name: str = Field(unique=True)
    volume_l: int | None = None
    started: date | None = None
    note: str | None = None


class Tank(SQLModel, table=True):
    """One tank, rectangular (length and width) or round (diameter)."""

    __table_args__ = (
        one_of("role", ROLES),
        positive("length_mm"),
        positive("width_mm"),
        positive("diameter_mm"),
        positive("water_height_mm"),
        positive("volume_l"),
        is_day("retired_on"),
        CheckConstraint(
            "(length_mm IS NULL) = (width_mm IS NULL)"
            " AND (length_mm IS NULL) <> (diameter_mm IS NULL)",
            name="is_rectangular_or_round",
        ),
        STRICT,
    )

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

    __table_args__ = (
        is_day("entered_on"),
        is_day("left_on"),
        CheckConstraint("left_on > entered_on", name="leaves_after_entering"),
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
