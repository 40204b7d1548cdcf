"""Foods of the house, their batches, and what each tank and each pup was offered and took."""

from datetime import date
from typing import ClassVar

from sqlalchemy import Index, UniqueConstraint, text
from sqlmodel import Field, SQLModel

from colony.notation.care import TAKEN
from colony.records.columns import STRICT, checks
from colony.records.rules import Rules, between, in_order, is_day, is_flag, one_of, positive


class Food(SQLModel, table=True):
    """One food of the house; its protein in percent of the mass as it is fed."""

    RULES: ClassVar[Rules] = (between("protein_percent", 0, 100, "protein_is_a_percentage"),)
    __table_args__ = (
        *checks(RULES),
        Index("ux_food_name", text("lower(name)"), unique=True),
        STRICT,
    )

    id: int | None = Field(default=None, primary_key=True)
    name: str
    protein_percent: float | None = None
    note: str | None = None


class FoodBatch(SQLModel, table=True):
    """One delivery of a food, by the code on its package; open until it is finished."""

    __tablename__ = "food_batch"
    RULES: ClassVar[Rules] = (
        is_day("received"),
        is_day("expires"),
        is_day("finished_on"),
        in_order("received", "finished_on"),
    )
    __table_args__ = (*checks(RULES), UniqueConstraint("food_id", "code"), STRICT)

    id: int | None = Field(default=None, primary_key=True)
    food_id: int = Field(foreign_key="food.id")
    code: str
    received: date
    expires: date | None = None
    finished_on: date | None = None


class TankFeeding(SQLModel, table=True):
    """A food offered to a tank, from which batch, and how much of it was taken."""

    __tablename__ = "tank_feeding"
    RULES: ClassVar[Rules] = (
        is_day("fed_on"),
        one_of("taken", TAKEN),
        positive("offered_g"),
    )
    __table_args__ = (*checks(RULES), STRICT)

    id: int | None = Field(default=None, primary_key=True)
    tank_id: int = Field(foreign_key="tank.id", index=True)
    fed_on: date = Field(index=True)
    food_id: int = Field(foreign_key="food.id", index=True)
    batch_id: int | None = Field(default=None, foreign_key="food_batch.id")
    offered_g: int | None = None
    taken: str
    note: str | None = None


class Feeding(SQLModel, table=True):
    """A food offered to an animal on a day, and whether it took it."""

    RULES: ClassVar[Rules] = (
        is_day("fed_on"),
        is_flag("took"),
    )
    __table_args__ = (*checks(RULES), UniqueConstraint("animal_id", "fed_on", "food"), STRICT)

    id: int | None = Field(default=None, primary_key=True)
    animal_id: int = Field(foreign_key="animal.id")
    fed_on: date
    food: str
    took: bool
