"""Health: what was seen at a look-over, and what a vet saw and wrote."""

from datetime import date
from typing import ClassVar

from sqlalchemy import UniqueConstraint
from sqlmodel import Field, SQLModel

from colony.notation.care import SIGNS
from colony.records.columns import STRICT, checks
from colony.records.rules import Rules, in_order, is_day, one_alone, one_of


class LookOver(SQLModel, table=True):
    """A sign seen at an animal, or in a tank where it is not known at whom."""

    __tablename__ = "look_over"
    RULES: ClassVar[Rules] = (
        one_of("sign", SIGNS),
        is_day("seen_on"),
        one_alone(
            "animal_id",
            "tank_id",
            "at_an_animal_or_a_tank",
            "A look-over is of an animal or of a tank",
        ),
    )
    __table_args__ = (*checks(RULES), STRICT)

    id: int | None = Field(default=None, primary_key=True)
    seen_on: date = Field(index=True)
    animal_id: int | None = Field(default=None, foreign_key="animal.id", index=True)
    tank_id: int | None = Field(default=None, foreign_key="tank.id", index=True)
    sign: str
    note: str | None = None


class VetVisit(SQLModel, table=True):
    """A vet's visit: who came, when, why, and what was found in the vet's words."""

    __tablename__ = "vet_visit"
    RULES: ClassVar[Rules] = (is_day("visited_on"),)
    __table_args__ = (*checks(RULES), STRICT)

    id: int | None = Field(default=None, primary_key=True)
    visited_on: date = Field(index=True)
    vet: str
    why: str
    found: str | None = None


class VetPatient(SQLModel, table=True):
    """An animal that a vet saw at a visit."""

    __tablename__ = "vet_patient"
    __table_args__ = (UniqueConstraint("visit_id", "animal_id"), STRICT)

    id: int | None = Field(default=None, primary_key=True)
    visit_id: int = Field(foreign_key="vet_visit.id")
    animal_id: int = Field(foreign_key="animal.id", index=True)


class Prescription(SQLModel, table=True):
    """What a vet prescribed, word for word as the vet wrote it; the book never suggests one."""

    RULES: ClassVar[Rules] = (
        is_day("starts"),
        is_day("ends"),
        in_order("starts", "ends"),
    )
    __table_args__ = (*checks(RULES), STRICT)

    id: int | None = Field(default=None, primary_key=True)
    visit_id: int = Field(foreign_key="vet_visit.id", index=True)
    as_written: str
    starts: date | None = None
    ends: date | None = None
