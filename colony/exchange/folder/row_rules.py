"""What the cells of one row of a folder must keep to, as a table of rules."""

from collections.abc import Mapping

from colony.exchange.folder.care_rules import CARE_RULES
from colony.exchange.folder.row_rule import RowRule, Values, in_order


def _ends_after_birth(row: Values) -> bool:
    return not (row["born"] and row["ended_on"]) or row["born"].first <= row["ended_on"]


def _rectangular_or_round(row: Values) -> bool:
    sides = row["length_mm"] is not None, row["width_mm"] is not None
    return sides[0] == sides[1] and sides[0] != (row["diameter_mm"] is not None)


_HERD_RULES: Mapping[str, tuple[RowRule, ...]] = {
    "tanks": (
        RowRule(
            "length_mm",
            _rectangular_or_round,
            "A tank has a length_mm and a width_mm, or a diameter_mm",
        ),
    ),
    "animals": (
        RowRule("ended_on", _ends_after_birth, "ended_on must not come before born"),
        RowRule(
            "status",
            lambda row: (row["status"] == "present") == (row["ended_on"] is None),
            "An animal that is not present has the day it ended_on, and only that one has",
        ),
        RowRule(
            "dam",
            lambda row: row["dam"] is None or row["litter"] is None,
            "A pup of a litter has its dam from there, and the cell stays empty",
        ),
    ),
    "pairings": (in_order("started", "ended"),),
    "litters": (
        RowRule(
            "live", lambda row: row["live"] + row["dead"] > 0, "A litter has pups, live or dead"
        ),
    ),
    "placements": (in_order("entered_on", "left_on", strictly=True),),
    "measurements": (
        RowRule(
            "width_mm",
            lambda row: row["width_mm"] is not None or row["mass_g"] is not None,
            "A measurement has a width_mm or a mass_g",
        ),
    ),
    "holds": (in_order("started", "ended"),),
}

ROW_RULES: Mapping[str, tuple[RowRule, ...]] = {**_HERD_RULES, **CARE_RULES}
"""The rules of each noun that has some."""
