"""A colony as plain files: which nouns there are, and the columns of each, as data.

Rows name animals by tag, tanks by code, litters by code and systems by name. A pairing is
named by its dam and its first day.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from colony.notation.words import FINDINGS, MATING_SIGNS, METHODS, ORIGINS, ROLES, SEXES, STATUSES


@dataclass(frozen=True)
class Column:
    """One column: its heading, how its cells are read, and what an empty one means.

    A kind that is the name of a noun refers to a row of it by `Noun.label`.
    """

    name: str
    kind: str = "text"
    needed: bool = False
    empty: Any = None
    words: tuple[str, ...] = ()


@dataclass(frozen=True)
class Noun:
    """One file: its columns, and those that tell one row from another.

    Without a `key` a row is told by all it says, and may stand twice.
    """

    name: str
    columns: tuple[Column, ...]
    key: tuple[str, ...] = ()

    @property
    def file(self) -> str:
        """The name of its file."""
        return f"{self.name}.csv"

    @property
    def label(self) -> str:
        """The column by which other files refer to a row."""
        return self.key[0]


def _needed(name: str, kind: str = "text", words: tuple[str, ...] = ()) -> Column:
    return Column(name, kind, needed=True, words=words)


def _word(name: str, words: tuple[str, ...], empty: str) -> Column:
    return Column(name, "word", empty=empty, words=words)


_NOTE = Column("note")

NOUNS = (
    Noun(
        "systems",
        (_needed("name"), Column("volume_l", "size"), Column("started", "day"), _NOTE),
        key=("name",),
    ),
    Noun(
        "tanks",
        (
            _needed("code", "tag"),
            _needed("system", "systems"),
            _needed("role", "word", ROLES),
            *(Column(f"{side}_mm", "size") for side in ("length", "width", "diameter")),
            Column("water_height_mm", "size"),
            Column("volume_l", "size"),
            Column("walking_order", "count"),
            Column("retired_on", "day"),
            _NOTE,
        ),
        key=("code",),
    ),
    Noun(
        "animals",
        (
            _needed("tag", "tag"),
            Column("name"),
            Column("species", "species"),
            _word("sex", SEXES, "U"),
            Column("born", "day_as_known"),
            _word("origin", ORIGINS, "unknown"),
            Column("arrived", "day"),
            Column("arrived_from"),
            Column("dam", "animals"),
            Column("sire", "animals"),
            Column("possible_sires", "sires", empty=()),
            Column("litter", "litters"),
            Column("transponder", "transponder"),
            Column("line"),
            Column("held_back", "yes_no", empty=False),
            Column("reserved_for"),
            Column("breeding_ban"),
            Column("mature_since", "day"),
            _word("status", STATUSES, "present"),
            Column("ended_on", "day"),
            Column("ended_why"),
            _NOTE,
        ),
        key=("tag",),
    ),
    Noun(
        "pairings",
        (
            _needed("pairing"),
            _needed("dam", "animals"),
            Column("sires", "tags", empty=()),
            Column("tank", "tanks"),
            _needed("started", "day"),
            Column("ended", "day"),
            Column("purpose"),
            _NOTE,
        ),
        key=("pairing",),
    ),
    Noun(
        "mating_signs",
        (
            _needed("pairing", "pairings"),
            _needed("seen_on", "day"),
            _needed("kind", "word", MATING_SIGNS),
            Column("sire", "animals"),
            _NOTE,
        ),
    ),
    Noun(
        "pregnancy_findings",
        (
            _needed("dam", "animals"),
            _needed("found_on", "day"),
            _needed("finding", "word", FINDINGS),
            _word("method", METHODS, "look"),
            _NOTE,
        ),
    ),
    Noun(
        "litters",
        (
            _needed("code", "tag"),
            _needed("dam", "animals"),
            Column("sires", "sires", empty=()),
            _needed("born", "day"),
            _needed("live", "count"),
            Column("dead", "count", empty=0),
            Column("pups_may_differ", "yes_no", empty=False),
            Column("pairing", "pairings"),
            Column("tank", "tanks"),
            _NOTE,
        ),
        key=("code",),
    ),
    Noun(
        "placements",
        (
            _needed("animal", "animals"),
            _needed("tank", "tanks"),
            _needed("entered_on", "day"),
            Column("left_on", "day"),
            Column("why"),
        ),
        key=("animal", "entered_on"),
    ),
    Noun(
        "measurements",
        (
            _needed("animal", "animals"),
            _needed("measured_on", "day"),
            Column("width_mm", "size"),
            Column("mass_g", "size"),
            _NOTE,
        ),
        key=("animal", "measured_on"),
    ),
    Noun(
        "feedings",
        (
            _needed("animal", "animals"),
            _needed("fed_on", "day"),
            _needed("food"),
            _needed("took", "yes_no"),
        ),
        key=("animal", "fed_on", "food"),
    ),
    Noun(
        "holds",
        (
            _needed("animal", "animals"),
            _needed("started", "day"),
            Column("ended", "day"),
            _needed("why"),
        ),
    ),
)
"""Every noun, each after those that it cannot do without."""

BY_NAME: Mapping[str, Noun] = {noun.name: noun for noun in NOUNS}


@dataclass(frozen=True)
class NounRow:
    """One row as values by heading; `line` is 0 for a row of the book."""

    line: int
    values: Mapping[str, Any]


@dataclass(frozen=True)
class SpeciesValues:
    """What a book says of a species otherwise than a new one does: names, numbers, sources."""

    scientific_name: str | None
    english_name: str | None
    traits: Mapping[str, tuple[float, str]]
