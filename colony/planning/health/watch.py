"""What asks for a second look: food refused again and again, a width or mass that stands still."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date

from colony.planning.pups.feeding import FoodOffered

NEWS_DAYS, YEAR_DAYS = 90, 365
"""A measure is news for so long, and compared with one of so long before; common practice, no source."""


@dataclass(frozen=True)
class Refusing:
    """Days in a row on which an animal took nothing that it was offered."""

    days: int
    since: date


def refusals_in_a_row(feedings: Iterable[FoodOffered]) -> Refusing | None:
    """Count back from the last feeding the days on which nothing was taken."""
    took: dict[date, bool] = {}
    for feeding in feedings:
        took[feeding.day] = took.get(feeding.day, False) or feeding.took
    refused: list[date] = []
    for day in sorted(took, reverse=True):
        if took[day]:
            break
        refused.append(day)
    return Refusing(len(refused), refused[-1]) if refused else None


@dataclass(frozen=True)
class Still:
    """A measure that gained no more than `gain` from a day to a day."""

    since: date
    until: date
    gain: float

    def is_news(self, today: date) -> bool:
        """Whether it says something of today: measured lately, against a measure of the year before."""
        lately = (today - self.until).days <= NEWS_DAYS
        return lately and (self.until - self.since).days <= YEAR_DAYS


def standing_still(
    measured: Sequence[tuple[date, float]], least_days: int, least_gain: float
) -> Still | None:
    """Compare the last measure with the last one at least `least_days` before it.

    Parameters
    ----------
    measured
        Days with a width in mm or a mass in g, in any order.
    least_gain
        A gain below this, in the same unit, is standing still.
    """
    ordered = sorted(measured)
    if not ordered:
        return None
    last_day, last = ordered[-1]
    earlier = [(day, size) for day, size in ordered if (last_day - day).days >= least_days]
    if not earlier:
        return None
    since, size = earlier[-1]
    gain = last - size
    return Still(since, last_day, gain) if gain < least_gain else None
