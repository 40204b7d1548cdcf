"""Water: what was changed, what the reserve held, what tests said."""

from datetime import date

from sqlalchemy import CheckConstraint, Index
from sqlmodel import Field, SQLModel

from colony.notation.care import PARAMETERS
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
