"""Litters: a birth, its counts, and the place."""

from datetime import date
from typing import ClassVar

from sqlalchemy import Index
from sqlmodel import Field, SQLModel

from colony.records.columns import STRICT, checks
from colony.records.rules import Rule, Rules, is_day, is_flag, one_alone


class Litter(SQLModel, table=True):
    """One birth of one dam. Who may be the sire stands in `PossibleSire`.

    `pups_may_differ` says that each pup may have a sire of its own (multiple paternity);
    otherwise the litter has one sire, even where it is not known which.
    """

    RULES: ClassVar[Rules] = (
        is_day("born"),
        is_flag("pups_may_differ"),
        Rule(
            "somebody_was_born",
            ("live", "dead"),
            "live >= 0 AND dead >= 0 AND live + dead > 0",
            lambda row: row["live"] >= 0 and row["dead"] >= 0 and row["live"] + row["dead"] > 0,
            "A litter has pups, live or dead",
        ),
    )
    __table_args__ = (*checks(RULES), STRICT)

    id: int | None = Field(default=None, primary_key=True)
    code: str = Field(unique=True)
    dam_id: int = Field(foreign_key="animal.id", index=True)
    pairing_id: int | None = Field(default=None, foreign_key="pairing.id", index=True)
    tank_id: int | None = Field(default=None, foreign_key="tank.id")
    born: date
    live: int
    dead: int = 0
    pups_may_differ: bool = False
    note: str | None = None


class PossibleSire(SQLModel, table=True):
    """One possible sire of a litter, or of an animal from elsewhere; None is somebody unknown.

    The shares of one litter sum to 1; the acts keep that, and `book check` looks again.
    """

    __tablename__ = "possible_sire"
    RULES: ClassVar[Rules] = (
        Rule(
            "share_is_a_probability",
            ("share",),
            "share > 0 AND share <= 1",
            lambda row: 0 < row["share"] <= 1,
            "share is above 0 and at most 1",
        ),
        one_alone(
            "litter_id",
            "animal_id",
            "of_a_litter_or_of_an_animal",
            "A possible sire is of a litter or of an animal",
        ),
        Rule(
            "nobody_is_its_own_sire",
            ("sire_id", "animal_id"),
            "sire_id <> animal_id",
            lambda row: row["sire_id"] is None or row["sire_id"] != row["animal_id"],
            "An animal is not its own sire",
        ),
    )
    __table_args__ = (
        *checks(RULES),
        Index("ux_possible_sire_of_litter", "litter_id", "sire_id", unique=True),
        Index("ux_possible_sire_of_animal", "animal_id", "sire_id", unique=True),
        STRICT,
    )

    id: int | None = Field(default=None, primary_key=True)
    litter_id: int | None = Field(default=None, foreign_key="litter.id")
    animal_id: int | None = Field(default=None, foreign_key="animal.id")
    sire_id: int | None = Field(default=None, foreign_key="animal.id", index=True)
    share: float
