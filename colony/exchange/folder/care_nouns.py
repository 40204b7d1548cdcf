"""The files of the day in the house: the round, food, water, health and moves to do.

A batch is named by its food and its code, a visit of the vet by its day and the vet.
"""

from colony.exchange.folder.noun import Noun
from colony.notation.fields.care import (
    ALARM_ANSWER_COLUMNS,
    CARE_DONE_COLUMNS,
    HOUSE_TASK_COLUMNS,
    MOVE_TO_DO_COLUMNS,
    RHYTHM_COLUMNS,
)
from colony.notation.fields.foods import FOOD_BATCH_COLUMNS, FOOD_COLUMNS, TANK_FEEDING_COLUMNS
from colony.notation.fields.health import (
    LOOK_OVER_COLUMNS,
    OVERRULING_COLUMNS,
    PRESCRIPTION_COLUMNS,
    VET_VISIT_COLUMNS,
)
from colony.notation.fields.water import (
    REGIME_COLUMNS,
    RESERVE_COLUMNS,
    WATER_CHANGE_COLUMNS,
    WATER_LIMIT_COLUMNS,
    WATER_TEST_COLUMNS,
)

CARE_NOUNS = (
    Noun("house_tasks", HOUSE_TASK_COLUMNS, "round", key=("name",)),
    Noun("care_rhythms", RHYTHM_COLUMNS, "round", key=("task", "role", "system", "tank")),
    Noun("care_done", CARE_DONE_COLUMNS, "round"),
    Noun("foods", FOOD_COLUMNS, "food", key=("name",)),
    Noun(
        "food_batches",
        FOOD_BATCH_COLUMNS,
        "food",
        key=("food", "code"),
        singular="food batch",
        called_by=("food", "code"),
    ),
    Noun("tank_feedings", TANK_FEEDING_COLUMNS, "food"),
    Noun("water_regimes", REGIME_COLUMNS, "water", key=("system",)),
    Noun("water_changes", WATER_CHANGE_COLUMNS, "water"),
    Noun("reserve_readings", RESERVE_COLUMNS, "water", key=("read_on",)),
    Noun("water_tests", WATER_TEST_COLUMNS, "water"),
    Noun("water_limits", WATER_LIMIT_COLUMNS, "water", key=("parameter", "species")),
    Noun("look_overs", LOOK_OVER_COLUMNS, "health"),
    Noun("vet_visits", VET_VISIT_COLUMNS, "health", key=("visit",), singular="vet visit"),
    Noun("prescriptions", PRESCRIPTION_COLUMNS, "health"),
    Noun("overrulings", OVERRULING_COLUMNS, "health"),
    Noun("alarm_answers", ALARM_ANSWER_COLUMNS, "round"),
    Noun("moves_to_do", MOVE_TO_DO_COLUMNS, "tank"),
)
"""Every noun of care, each after those that it cannot do without."""
