"""The round: how often each task is done where, and what was done or skipped on a day."""

from datetime import date
from typing import ClassVar

from sqlalchemy import Index, text
from sqlmodel import Field, SQLModel

from colony.notation.care import TASK_PLACES, TASKS
from colony.notation.words import ROLES
from colony.records.columns import STRICT, checks
from colony.records.rules import (
    Rule,
    Rules,
    has_length,
    is_day,
    one_alone,
    one_of,
    positive,
    quoted,
)

_OF_A_SYSTEM = tuple(task.name for task in TASKS.values() if task.per == "system")


class HouseTask(SQLModel, table=True):
    """A task of the house's own beside the usual ones; or its own caution to a usual one."""

    __tablename__ = "house_task"
    RULES: ClassVar[Rules] = (
        has_length("name", 1, 40, "name_has_a_length"),
        one_of("per", TASK_PLACES),
    )
    __table_args__ = (
        *checks(RULES),
        Index("ux_house_task_name", text("lower(name)"), unique=True),
        STRICT,
    )

    id: int | None = Field(default=None, primary_key=True)
    name: str
    per: str = TASK_PLACES[0]
    caution: str | None = None


class CareRhythm(SQLModel, table=True):
    """How often a task is done: at one tank, one system, tanks of one role, or everywhere."""

    __tablename__ = "care_rhythm"
    RULES: ClassVar[Rules] = (
        has_length("task", 1, 40, "task_has_a_length"),
        one_of("role", ROLES),
        is_day("started"),
        positive("times_a_day"),
        positive("every_days"),
        Rule(
            "times_a_day_or_days_apart",
            ("every_days", "times_a_day"),
            "times_a_day = 1 OR every_days = 1",
            lambda row: 1 in (row["times_a_day"], row["every_days"]),
            "A task is done so many times a day, or every so many days, not both",
        ),
        Rule(
            "holds_in_one_way",
            ("role", "system_id", "tank_id"),
            "(tank_id IS NULL OR system_id IS NULL) AND (tank_id IS NULL OR role IS NULL)"
            " AND (system_id IS NULL OR role IS NULL)",
            lambda row: [row["role"], row["system_id"], row["tank_id"]].count(None) > 1,
            "A rhythm holds for one tank, one system or one role, or for all",
        ),
        Rule(
            "holds_where_it_is_done",
            ("task", "tank_id", "role"),
            f"task NOT IN ({quoted(_OF_A_SYSTEM)}) OR (tank_id IS NULL AND role IS NULL)",
            lambda row: row["task"] not in _OF_A_SYSTEM or row["tank_id"] is row["role"] is None,
            "This task is done for a system, not at a tank",
            in_schema=False,
        ),
    )
    __table_args__ = (*checks(RULES), STRICT)

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
    RULES: ClassVar[Rules] = (
        has_length("task", 1, 40, "task_has_a_length"),
        is_day("done_on"),
        one_alone(
            "tank_id",
            "system_id",
            "at_a_tank_or_a_system",
            "A task is done at a tank or for a system",
        ),
        Rule(
            "done_where_it_belongs",
            ("task", "system_id", "tank_id"),
            f"CASE WHEN task IN ({quoted(_OF_A_SYSTEM)}) THEN system_id IS NOT NULL"
            " ELSE tank_id IS NOT NULL END",
            lambda row: row["system_id" if row["task"] in _OF_A_SYSTEM else "tank_id"] is not None,
            "This task has the system cell filled if it is done for a system, else the tank cell",
            in_schema=False,
        ),
        has_length("skipped_why", 1, None, "a_skip_has_a_reason"),
    )
    __table_args__ = (*checks(RULES), STRICT)

    id: int | None = Field(default=None, primary_key=True)
    task: str
    done_on: date = Field(index=True)
    tank_id: int | None = Field(default=None, foreign_key="tank.id", index=True)
    system_id: int | None = Field(default=None, foreign_key="system.id", index=True)
    skipped_why: str | None = None
    note: str | None = None
