"""Animals: who each one is. A pup is an animal."""

from datetime import date
from typing import ClassVar

from sqlalchemy import Index, text
from sqlmodel import Field, SQLModel

from colony.notation.words import ORIGINS, PRECISIONS, SEXES, STATUSES
from colony.records.columns import STRICT, checks, kin
from colony.records.rules import (
    Rule,
    Rules,
    has_length,
    in_order,
    is_day,
    is_flag,
    not_both,
    one_of,
)


class Animal(SQLModel, table=True):
    """One animal, by the tag that is written on its tank.

    A pup born here has its parents from its litter; `dam_id` is only for the others, and
    `sire_id` is a sire beyond doubt: known from outside, or settled for this pup by a test.
    """

    RULES: ClassVar[Rules] = (
        one_of("sex", SEXES),
        one_of("born_precision", PRECISIONS),
        one_of("origin", ORIGINS),
        one_of("status", STATUSES),
        is_day("born"),
        is_day("arrived"),
        is_day("mature_since"),
        is_day("ended_on"),
        is_day("last_seen"),
        is_flag("held_back"),
        in_order("born", "ended_on"),
        in_order("born", "last_seen"),
        in_order("last_seen", "ended_on"),
        Rule(
            "only_who_died_was_last_seen",
            ("status", "last_seen"),
            "last_seen IS NULL OR status = 'died'",
            lambda row: row["last_seen"] is None or row["status"] == "died",
            "Only an animal that died has a day when it was last_seen alive",
        ),
        Rule(
            "an_end_has_a_day",
            ("status", "ended_on"),
            "(status = 'present') = (ended_on IS NULL)",
            lambda row: (row["status"] == "present") == (row["ended_on"] is None),
            "An animal that is not present has the day it ended_on, and only that one has",
        ),
        not_both(
            "litter_id",
            "dam_id",
            "the_litter_knows_the_dam",
            "A pup of a litter has its dam from there, and the cell stays empty",
        ),
        Rule(
            "nobody_is_its_own_parent",
            ("dam_id", "sire_id", "id"),
            "dam_id <> id AND sire_id <> id",
            lambda row: row["id"] is None or row["id"] not in (row["dam_id"], row["sire_id"]),
            "An animal is not its own parent",
        ),
        has_length("tag", 1, 40, "tag_has_a_length"),
        has_length("transponder", 15, 15, "transponder_has_15_digits"),
    )
    __table_args__ = (
        *checks(RULES),
        Index("ux_animal_tag", text("lower(tag)"), unique=True),
        STRICT,
    )

    id: int | None = Field(default=None, primary_key=True)
    tag: str
    name: str | None = None
    species_id: int | None = Field(default=None, foreign_key="species.id", index=True)
    sex: str = "U"
    born: date | None = Field(default=None, index=True)
    born_precision: str = "day"
    origin: str = "unknown"
    arrived: date | None = None
    arrived_from: str | None = None
    dam_id: int | None = kin("animal.id")
    sire_id: int | None = kin("animal.id")
    litter_id: int | None = kin("litter.id", after=True)
    transponder: str | None = Field(default=None, unique=True)
    line: str | None = None
    held_back: bool = False
    reserved_for: str | None = None
    breeding_ban: str | None = None
    mature_since: date | None = None
    status: str = Field(default="present", index=True)
    ended_on: date | None = None
    ended_why: str | None = None
    note: str | None = None
    last_seen: date | None = None
