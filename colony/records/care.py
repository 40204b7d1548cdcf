"""The round: how often each task is done where, and what was done or skipped on a day."""

from datetime import date

from sqlalchemy import CheckConstraint
from sqlmodel import Field, SQLModel

from colony.notation.care import TASKS
from colony.notation.words import ROLES
from colony.records.columns import STRICT, is_day, one_of, positive


class CareRhythm(SQLModel, table=True):
    """How often a task is done: at one tank, one system, tanks of one role, or everywhere."""

    __tablename__ = "care_rhythm"
    __table_args__ = (
        one_of("task", tuple(TASKS)),
        one_of("role", ROLES),
        is_day("started"),
        positive("times_a_day"),
        positive("every_days"),
        CheckConstraint("times_a_day = 1 OR every_days = 1", name="times_a_day_or_days_apart"),
        CheckConstraint(
            "(tank_id IS NULL OR system_id IS NULL) AND (tank_id IS NULL OR role IS NULL)"
            " AND (system_id IS NULL OR role IS NULL)",
            name="holds_in_one_way",
        ),
        STRICT,
    )

    id: int | None = Field(default=None, primary_key=True)
    task: str
    started: date
    times_a_day: int = 1
    every_days: int = 1
    tank_id: int | None = Field(default=None, foreign_key="tank.id")
    system_id: int | None = Field(default=None, foreign_key="system.id")
    role: str | None = None


class CareDone(SQLModel, table=True):
    """A task done once at a tank or for a system; or let go that day, with the reason."""

    __tablename__ = "care_done"
    __table_args__ = (
        one_of("task", tuple(TASKS)),
        is_day("done_on"),
        CheckConstraint("(tank_id IS NULL) <> (system_id IS NULL)", name="at_a_tank_or_a_system"),
        CheckConstraint("length(skipped_why) > 0", name="a_skip_has_a_reason"),
        STRICT,
    )

    id: int | None = Field(default=None, primary_key=True)
    task: str
    done_on: date = Field(index=True)
    tank_id: int | None = Field(default=None, foreign_key="tank.id", index=True)
    system_id: int | None = Field(default=None, foreign_key="system.id", index=True)
    skipped_why: str | None = None
    note: str | None = None
