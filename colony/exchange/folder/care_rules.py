"""What the cells of one row of care must keep to."""

from collections.abc import Mapping

from colony.exchange.folder.row_rule import RowRule, Values, between, in_order, one_alone
from colony.notation.care import PARAMETERS, TASKS


def _holds_in_one_way(row: Values) -> bool:
    return sum(row[way] is not None for way in ("role", "system", "tank")) <= 1


def _where_it_is_done(row: Values) -> bool:
    """A task of a system is done for all of it; a task of a tank may hold in every way."""
    return TASKS[row["task"]].per == "tank" or (row["tank"] is None and row.get("role") is None)


def _done_where_it_belongs(row: Values) -> bool:
    return row[TASKS[row["task"]].per] is not None


def _is_renewed(row: Values) -> bool:
    return row["percent"] is not None or row["drip_l_a_day"] is not None


def _within_the_most(row: Values) -> bool:
    return row["percent"] is None or bool(0 < row["percent"] <= row["most_percent_a_day"])


def _can_be_measured(row: Values) -> bool:
    known = PARAMETERS[row["parameter"]]
    value: float = row["value"]
    return known.least <= value <= known.most


def _low_below_high(row: Values) -> bool:
    return row["low"] is None or row["high"] is None or bool(row["low"] < row["high"])


CARE_RULES: Mapping[str, tuple[RowRule, ...]] = {
    "care_rhythms": (
        RowRule("role", _holds_in_one_way, "A rhythm holds for a role, a system or a tank alone"),
        RowRule("task", _where_it_is_done, "This task is done for a system, not at a tank"),
        RowRule(
            "every_days",
            lambda row: row["times_a_day"] == 1 or row["every_days"] == 1,
            "A task is done several times_a_day or every_days so many, not both",
        ),
    ),
    "care_done": (
        one_alone("tank", "system", "A task is done at a tank or for a system"),
        RowRule(
            "task",
            _done_where_it_belongs,
            "This task has the system cell filled if it is done for a system, else the tank cell",
        ),
    ),
    "foods": (between("protein_percent", 0, 100),),
    "food_batches": (in_order("received", "finished_on"),),
    "water_regimes": (
        between("most_percent_a_day", 1, 100),
        RowRule("percent", _is_renewed, "Water is renewed by a percent or by drip_l_a_day"),
        RowRule(
            "every_days",
            lambda row: (row["percent"] is None) == (row["every_days"] is None),
            "A percent goes with every_days",
        ),
        RowRule(
            "percent", _within_the_most, "percent is above 0 and at most the most_percent_a_day"
        ),
    ),
    "water_tests": (
        RowRule("value", _can_be_measured, "The parameter cannot have this value in its unit"),
    ),
    "water_limits": (
        RowRule(
            "low",
            lambda row: row["low"] is not None or row["high"] is not None,
            "A limit has a low or a high",
        ),
        RowRule("high", _low_below_high, "high must be above low"),
    ),
    "look_overs": (one_alone("animal", "tank", "A sign is of an animal or of a tank"),),
    "prescriptions": (in_order("starts", "ends"),),
    "moves_to_do": (
        RowRule(
            "dropped_on",
            lambda row: row["done_on"] is None or row["dropped_on"] is None,
            "A move is done or dropped, not both",
        ),
    ),
}
"""The rules of each noun of care that has some."""
