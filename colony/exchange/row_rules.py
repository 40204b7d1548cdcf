"""What the cells of one row of a folder must keep to, as a table of rules."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any

Values = Mapping[str, Any]


@dataclass(frozen=True)
class RowRule:
    """A rule of one noun: the column it is told of, whether a row keeps it, and its sentence."""

    column: str
    keeps: Callable[[Values], bool]
    sentence: str


def _in_order(first: str, then: str, *, strictly: bool = False) -> RowRule:
    def keeps(row: Values) -> bool:
        one, other = row[first], row[then]
        return one is None or other is None or (one < other if strictly else one <= other)

    return RowRule(then, keeps, f"{then} must come after {first}")


def _ends_after_birth(row: Values) -> bool:
    return not (row["born"] and row["ended_on"]) or row["born"].first <= row["ended_on"]


def _rectangular_or_round(row: Values) -> bool:
    sides = row["length_mm"] is not None, row["width_mm"] is not None
    return sides[0] == sides[1] and sides[0] != (row["diameter_mm"] is not None)


ROW_RULES: Mapping[str, tuple[RowRule, ...]] = {
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
    "pairings": (_in_order("started", "ended"),),
    "litters": (
        RowRule(
            "live", lambda row: row["live"] + row["dead"] > 0, "A litter has pups, live or dead"
        ),
    ),
    "placements": (_in_order("entered_on", "left_on", strictly=True),),
    "measurements": (
        RowRule(
            "width_mm",
            lambda row: row["width_mm"] is not None or row["mass_g"] is not None,
            "A measurement has a width_mm or a mass_g",
        ),
    ),
    "holds": (_in_order("started", "ended"),),
}
"""The rules of each noun that has some."""
