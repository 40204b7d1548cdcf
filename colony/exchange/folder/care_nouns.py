"""The files of the day in the house: the round, food, water, health and moves to do.

A batch is named by its food and its code, a visit of the vet by its day and the vet.
"""

from colony.exchange.folder.noun import NOTE, Noun, NounColumn, needed, word
from colony.notation.care import PARAMETERS, SIGNS, TAKEN, TASKS, UNIONISED
from colony.notation.words import ROLES

_ROUND = (
    Noun(
        "care_rhythms",
        (
            needed("task", "word", tuple(TASKS)),
            word("role", ROLES),
            NounColumn("system", "systems"),
            NounColumn("tank", "tanks"),
            NounColumn("times_a_day", "size", empty=1),
            NounColumn("every_days", "size", empty=1),
            needed("started", "day"),
        ),
        key=("task", "role", "system", "tank"),
    ),
    Noun(
        "care_done",
        (
            needed("done_on", "day"),
            needed("task", "word", tuple(TASKS)),
            NounColumn("system", "systems"),
            NounColumn("tank", "tanks"),
            NounColumn("skipped_why"),
            NOTE,
        ),
    ),
)

_FOOD = (
    Noun(
        "foods",
        (needed("name"), NounColumn("protein_percent", "number"), NOTE),
        key=("name",),
    ),
    Noun(
        "food_batches",
        (
            needed("food", "foods"),
            needed("code"),
            needed("received", "day"),
            NounColumn("expires", "day"),
            NounColumn("finished_on", "day"),
        ),
        key=("food", "code"),
        singular="food batch",
        called_by=("food", "code"),
    ),
    Noun(
        "tank_feedings",
        (
            needed("fed_on", "day"),
            needed("tank", "tanks"),
            needed("food", "foods"),
            NounColumn("batch", "food_batches", within="food"),
            NounColumn("offered_g", "size"),
            needed("taken", "word", TAKEN),
            NOTE,
        ),
    ),
)

_WATER = (
    Noun(
        "water_regimes",
        (
            needed("system", "systems"),
            NounColumn("percent", "number"),
            NounColumn("every_days", "size"),
            NounColumn("most_percent_a_day", "number", empty=50.0),
            NounColumn("drip_l_a_day", "size"),
            needed("started", "day"),
        ),
        key=("system",),
    ),
    Noun(
        "water_changes",
        (
            needed("changed_on", "day"),
            needed("system", "systems"),
            needed("litres", "size"),
            NOTE,
        ),
    ),
    Noun(
        "reserve_readings",
        (needed("read_on", "day"), needed("litres", "count")),
        key=("read_on",),
    ),
    Noun(
        "water_tests",
        (
            needed("tested_on", "day"),
            needed("system", "systems"),
            needed("parameter", "word", tuple(PARAMETERS)),
            needed("value", "number"),
            NOTE,
        ),
    ),
    Noun(
        "water_limits",
        (
            needed("parameter", "word", (*PARAMETERS, UNIONISED)),
            NounColumn("species", "species"),
            NounColumn("low", "number"),
            NounColumn("high", "number"),
            needed("source"),
        ),
        key=("parameter", "species"),
    ),
)

_HEALTH = (
    Noun(
        "look_overs",
        (
            needed("seen_on", "day"),
            NounColumn("animal", "animals"),
            NounColumn("tank", "tanks"),
            needed("sign", "word", SIGNS),
            NOTE,
        ),
    ),
    Noun(
        "vet_visits",
        (
            needed("visit"),
            needed("visited_on", "day"),
            needed("vet"),
            needed("why"),
            NounColumn("found"),
            NounColumn("animals", "tags", empty=()),
        ),
        key=("visit",),
        singular="vet visit",
    ),
    Noun(
        "prescriptions",
        (
            needed("visit", "vet_visits"),
            needed("as_written"),
            NounColumn("starts", "day"),
            NounColumn("ends", "day"),
        ),
    ),
)

_MOVES = (
    Noun(
        "moves_to_do",
        (
            needed("animal", "animals"),
            needed("tank", "tanks"),
            needed("accepted_on", "day"),
            needed("due_by", "day"),
            needed("why"),
            NounColumn("done_on", "day"),
            NounColumn("dropped_on", "day"),
        ),
    ),
)

CARE_NOUNS = (*_ROUND, *_FOOD, *_WATER, *_HEALTH, *_MOVES)
"""Every noun of care, each after those that it cannot do without."""
