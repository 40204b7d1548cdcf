"""The files of the herd: animals and their homes, pairings, births, sizes, meals and holds.

Rows name animals by tag, tanks by code, litters by code and systems by name. A pairing is
named by its dam and its first day.
"""

from colony.exchange.folder.noun import NOTE, Noun, NounColumn, needed, word
from colony.notation.words import FINDINGS, MATING_SIGNS, METHODS, ORIGINS, ROLES, SEXES, STATUSES

HERD_NOUNS = (
    Noun(
        "systems",
        (needed("name"), NounColumn("volume_l", "size"), NounColumn("started", "day"), NOTE),
        key=("name",),
    ),
    Noun(
        "tanks",
        (
            needed("code", "tag"),
            needed("system", "systems"),
            needed("role", "word", ROLES),
            *(NounColumn(f"{side}_mm", "size") for side in ("length", "width", "diameter")),
            NounColumn("water_height_mm", "size"),
            NounColumn("volume_l", "size"),
            NounColumn("walking_order", "count"),
            NounColumn("retired_on", "day"),
            NOTE,
        ),
        key=("code",),
    ),
    Noun(
        "animals",
        (
            needed("tag", "tag"),
            NounColumn("name"),
            NounColumn("species", "species"),
            word("sex", SEXES, "U"),
            NounColumn("born", "day_as_known"),
            word("origin", ORIGINS, "unknown"),
            NounColumn("arrived", "day"),
            NounColumn("arrived_from"),
            NounColumn("dam", "animals"),
            NounColumn("sire", "animals"),
            NounColumn("possible_sires", "sires", empty=()),
            NounColumn("litter", "litters"),
            NounColumn("transponder", "transponder"),
            NounColumn("line"),
            NounColumn("held_back", "yes_no", empty=False),
            NounColumn("reserved_for"),
            NounColumn("breeding_ban"),
            NounColumn("mature_since", "day"),
            word("status", STATUSES, "present"),
            NounColumn("ended_on", "day"),
            NounColumn("ended_why"),
            NOTE,
        ),
        key=("tag",),
    ),
    Noun(
        "pairings",
        (
            needed("pairing"),
            needed("dam", "animals"),
            NounColumn("sires", "tags", empty=()),
            NounColumn("tank", "tanks"),
            needed("started", "day"),
            NounColumn("ended", "day"),
            NounColumn("purpose"),
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
            NounColumn("sire", "animals"),
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
            NounColumn("sires", "sires", empty=()),
            needed("born", "day"),
            needed("live", "count"),
            NounColumn("dead", "count", empty=0),
            NounColumn("pups_may_differ", "yes_no", empty=False),
            NounColumn("pairing", "pairings"),
            NounColumn("tank", "tanks"),
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
            NounColumn("left_on", "day"),
            NounColumn("why"),
        ),
        key=("animal", "entered_on"),
    ),
    Noun(
        "measurements",
        (
            needed("animal", "animals"),
            needed("measured_on", "day"),
            NounColumn("width_mm", "size"),
            NounColumn("mass_g", "size"),
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
            NounColumn("ended", "day"),
            needed("why"),
        ),
    ),
)
"""Every noun of the herd, each after those that it cannot do without."""
