"""A rule that each row of one file keeps to, and the ways that rules are mostly made."""

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


def in_order(first: str, then: str, *, strictly: bool = False) -> RowRule:
    """Hold two columns in order, where both are known."""

    def keeps(row: Values) -> bool:
        one, other = row[first], row[then]
        return one is None or other is None or (one < other if strictly else one <= other)

    return RowRule(then, keeps, f"{then} must come after {first}")


def one_alone(first: str, other: str, sentence: str) -> RowRule:
    """Hold a row to exactly one of two columns."""
    return RowRule(first, lambda row: (row[first] is None) != (row[other] is None), sentence)


def between(column: str, least: float, most: float) -> RowRule:
    """Hold a number within bounds, where it is known."""
    return RowRule(
        column,
        lambda row: row[column] is None or least <= row[column] <= most,
        f"{column} is a number from {least:g} to {most:g}",
    )
