"""The files of the herd: animals and their homes, pairings, births, sizes, meals and holds.

Rows name animals by tag, tanks by code, litters by code and systems by name. A pairing is
named by its dam and its first day.
"""

from colony.exchange.noun import NOTE, Column, Noun, needed, word
from colony.notation.words import FINDINGS, MATING_SIGNS, METHODS, ORIGINS, ROLES, SEXES, STATUSES

HERD_NOUNS = (
    Noun(
        "systems",
        (needed("name"), Column("volume_l", "size"), Column("started", "day"), NOTE),
        key=("name",),
    ),
    Noun(
        "tanks",
        (
            needed("code", "tag"),
            needed("system", "systems"),
            needed("role", "word", ROLES),
            *(Column(f"{side}_mm", "size") for side in ("length", "width", "diameter")),
            Column("water_height_mm", "size"),
            Column("volume_l", "size"),
            Column("walking_order", "count"),
            Column("retired_on", "day"),
            NOTE,
        ),
        key=("code",),
    ),
    Noun(
        "animals",
        (
            needed("tag", "tag"),
            Column("name"),
            Column("species", "species"),
            word("sex", SEXES, "U"),
            Column("born", "day_as_known"),
            word("origin", ORIGINS, "unknown"),
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
            word("status", STATUSES, "present"),
            Column("ended_on", "day"),
            Column("ended_why"),
            NOTE,
        ),
        key=("tag",),
    ),
    Noun(
        "pairings",
        (
            needed("pairing"),
            needed("dam", "animals"),
            Column("sires", "tags", empty=()),
            Column("tank", "tanks"),
            needed("started", "day"),
            Column("ended", "day"),
            Column("purpose"),
            NOTE,
        ),
        key=("pairing",),
    ),
    Noun(
        "mating_signs",
        (
            needed("pairing", "pairings"),
            needed("seen_on", "day"),
            needed("kind", "word", MATING_SIGNS),
            Column("sire", "animals"),
            NOTE,
        ),
    ),
    Noun(
        "pregnancy_findings",
        (
            needed("dam", "animals"),
            needed("found_on", "day"),
            needed("finding", "word", FINDINGS),
            word("method", METHODS, "look"),
            NOTE,
        ),
    ),
    Noun(
        "litters",
        (
            needed("code", "tag"),
            needed("dam", "animals"),
            Column("sires", "sires", empty=()),
            needed("born", "day"),
            needed("live", "count"),
            Column("dead", "count", empty=0),
            Column("pups_may_differ", "yes_no", empty=False),
            Column("pairing", "pairings"),
            Column("tank", "tanks"),
            NOTE,
        ),
        key=("code",),
    ),
    Noun(
        "placements",
        (
            needed("animal", "animals"),
            needed("tank", "tanks"),
            needed("entered_on", "day"),
            Column("left_on", "day"),
            Column("why"),
        ),
        key=("animal", "entered_on"),
    ),
    Noun(
        "measurements",
        (
            needed("animal", "animals"),
            needed("measured_on", "day"),
            Column("width_mm", "size"),
            Column("mass_g", "size"),
            NOTE,
        ),
        key=("animal", "measured_on"),
    ),
    Noun(
        "feedings",
        (
            needed("animal", "animals"),
            needed("fed_on", "day"),
            needed("food"),
            needed("took", "yes_no"),
        ),
        key=("animal", "fed_on", "food"),
    ),
    Noun(
        "holds",
        (
            needed("animal", "animals"),
            needed("started", "day"),
            Column("ended", "day"),
            needed("why"),
        ),
    ),
)
"""Every noun of the herd, each after those that it cannot do without."""
