"""Since when a pup takes enough foods."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date


@dataclass(frozen=True)
class Feeding:
    """A food offered to a pup on a day, and whether it took it."""

    day: date
    food: str
    took: bool


def fed_since(feedings: Iterable[Feeding], foods: int, today: date) -> date | None:
    """First day since which the pup takes at least `foods` foods, or None.

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
    starts = sorted(since.values())
    return starts[foods - 1] if len(starts) >= foods else None
