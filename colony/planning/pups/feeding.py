"""Since when a pup takes enough foods."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date


@dataclass(frozen=True)
class FoodOffered:
    """A food offered to a pup on a day, and whether it took it."""

    day: date
    food: str
    took: bool


def accepted_since(feedings: Iterable[FoodOffered], today: date) -> dict[str, date]:
    """Each food that a pup takes, and the first day since which it does.

    A food counts from the first time it was taken after its last refusal.
    """
    since: dict[str, date] = {}
    for feeding in sorted(feedings, key=lambda f: (f.day, f.took)):
        if feeding.day > today:
            break
        if feeding.took:
            since.setdefault(feeding.food, feeding.day)
        else:
            since.pop(feeding.food, None)
    return since


def fed_since(feedings: Iterable[FoodOffered], foods: int, today: date) -> date | None:
    """First day since which the pup takes at least `foods` foods, or None."""
    starts = sorted(accepted_since(feedings, today).values())
    return starts[foods - 1] if len(starts) >= foods else None


def first_feed(feedings: Iterable[FoodOffered]) -> date | None:
    """The day on which a pup first took anything."""
    return min((feeding.day for feeding in feedings if feeding.took), default=None)
