"""Pairings: a dam kept with one or several sires for a time, and the mating signs seen."""

from datetime import date
from typing import ClassVar

from sqlalchemy import UniqueConstraint
from sqlmodel import Field, SQLModel

from colony.notation.words import FINDINGS, MATING_SIGNS, METHODS
from colony.records.columns import STRICT, checks
from colony.records.rules import Rules, in_order, is_day, one_alone, one_of


class Pairing(SQLModel, table=True):
    """A dam kept with possible sires from a day to a day."""

    RULES: ClassVar[Rules] = (
        is_day("started"),
        is_day("ended"),
        in_order("started", "ended"),
    )
    __table_args__ = (*checks(RULES), STRICT)

    id: int | None = Field(default=None, primary_key=True)
    dam_id: int = Field(foreign_key="animal.id", index=True)
    tank_id: int | None = Field(default=None, foreign_key="tank.id")
    started: date
    ended: date | None = None
    purpose: str | None = None
    note: str | None = None


class PairingSire(SQLModel, table=True):
    """One male of a pairing."""

    __tablename__ = "pairing_sire"
    __table_args__ = (UniqueConstraint("pairing_id", "sire_id"), STRICT)

    id: int | None = Field(default=None, primary_key=True)
    pairing_id: int = Field(foreign_key="pairing.id")
    sire_id: int = Field(foreign_key="animal.id", index=True)


class MatingSign(SQLModel, table=True):
    """A sign of mating seen on a day: bite marks on the disc edge, seen copulation.

    It is of a pairing, or of a dam who was in none.
    """

    __tablename__ = "mating_sign"
    RULES: ClassVar[Rules] = (
        one_of("kind", MATING_SIGNS),
        is_day("seen_on"),
        one_alone(
            "pairing_id",
            "dam_id",
            "of_a_pairing_or_of_a_dam",
            "A mating sign is of a pairing or of a dam",
        ),
    )
    __table_args__ = (*checks(RULES), STRICT)

    id: int | None = Field(default=None, primary_key=True)
    pairing_id: int | None = Field(default=None, foreign_key="pairing.id", index=True)
    seen_on: date
    kind: str
    sire_id: int | None = Field(default=None, foreign_key="animal.id")
    note: str | None = None
    dam_id: int | None = Field(default=None, foreign_key="animal.id", index=True)


class PregnancyFinding(SQLModel, table=True):
    """What was found of a female on a day. "Nothing seen" is never "not pregnant"."""

    __tablename__ = "pregnancy_finding"
    RULES: ClassVar[Rules] = (
        one_of("finding", FINDINGS),
        one_of("method", METHODS),
        is_day("found_on"),
    )
    __table_args__ = (*checks(RULES), STRICT)

    id: int | None = Field(default=None, primary_key=True)
    dam_id: int = Field(foreign_key="animal.id", index=True)
    found_on: date
    finding: str
    method: str = "look"
    note: str | None = None
