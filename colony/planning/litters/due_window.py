"""When a litter is due: a day of conception, by its weight, and a gestation from there on.

The date of birth is conditioned on no birth until today: each day without one rules out what went by.
"""

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from functools import cached_property, lru_cache
from math import erfc, sqrt
from threading import Lock

from colony.planning.litters.conception import Evidence, conception_basis, conception_days
from colony.planning.litters.gestation import (
    GestationLength,
    GestationPrior,
    Past,
)

TAIL = 0.05
"""The share of births before the earliest date, and after the latest."""

FARTHEST_DAYS = 2000
"""No birth is looked for later than this; the longest gestations are a fifth of it."""


@dataclass(frozen=True)
class DueWindow:
    """When a litter is due, and by when its nursery has to be set up.

    `earliest` and `latest` leave 5 % of the births outside, each. `state` is "possible" (only
    kept with a male), "expected" (mating signs), "confirmed" (found gravid) or "overdue".
    The window moves on as days pass without a birth; `nursery_by` does not move with it.
    """

    earliest: date
    likely: date
    latest: date
    nursery_by: date
    overdue: bool
    basis: str
    state: str


def due_window(
    prior: GestationPrior,
    evidence: Evidence,
    past: Sequence[GestationLength] | Past = (),
    *,
    today: date,
    filter_weeks: int = 6,
) -> DueWindow | None:
    """Say when the litter is due, given what was seen and that it is not born yet.

    `past` are the recorded gestations of the species, weighed already where many dams ask.

    Returns
    -------
    DueWindow or None
        None when nothing speaks for a pregnancy: never kept with a male, or the last
        one ended by birth, abortion or a false alarm and nothing was seen since; or she
        only swam with a male, and was due long ago.
    """
    seen = conception_days(evidence, longest_days=prior.high_days, today=today)
    if seen is None:
        return None
    past = past if isinstance(past, Past) else Past.weigh(prior, past)
    longer = _longer(past.believe(evidence.dam))
    birth = _Birth(longer, seen.weighed())
    overdue = _Birth(longer, seen.likely).after(today.toordinal() - 1) < TAIL
    if overdue and not evidence.paired and seen.state == "possible":
        # She only swam with a male, and the days of a birth went by.
        return None
    earliest, likely, latest = (birth.day(share, today) for share in (TAIL, 0.5, 1 - TAIL))
    first_expected = birth.day(TAIL, seen.first)
    return DueWindow(
        earliest=earliest,
        likely=likely,
        latest=latest,
        nursery_by=first_expected - timedelta(weeks=filter_weeks),
        overdue=overdue,
        basis=f"{conception_basis(evidence, seen)}; {_records_basis(past, evidence.dam)}",
        state="overdue" if overdue else seen.state,
    )


def likely_birth(
    prior: GestationPrior, evidence: Evidence, past: Past, *, today: date
) -> date | None:
    """The likely day of `due_window` alone, which is a quarter of its work.

    None where she was only kept with a male: that is no proof.
    """
    seen = conception_days(evidence, longest_days=prior.high_days, today=today)
    if seen is None or seen.state == "possible":
        return None
    return _Birth(_longer(past.believe(evidence.dam)), seen.weighed()).day(0.5, today)


def gestation_chance(belief: GestationPrior, days: int) -> float:
    """Probability of a gestation of just so many days, before any sight of the birth."""
    longer = _longer(belief)
    return longer.at(days - 1) - longer.at(days)


@dataclass(frozen=True)
class _Birth:
    """The day of birth: a day of conception, by its weight, plus a gestation."""

    longer: "_Longer"
    conceived: tuple[tuple[int, float], ...]

    @cached_property
    def runs(self) -> tuple[tuple[int, int, float], ...]:
        """First and last of the days that follow one another with one weight, and that weight.

        Most are long: a day in which nothing was seen weighs as much as the next.
        """
        weights: dict[int, float] = defaultdict(float)
        for day, weight in self.conceived:
            weights[day] += weight
        runs: list[tuple[int, int, float]] = []
        for day in sorted(weights):
            weight = weights[day]
            if runs and runs[-1][1] == day - 1 and runs[-1][2] == weight:
                runs[-1] = (runs[-1][0], day, weight)
            else:
                runs.append((day, day, weight))
        return tuple(runs)

    def after(self, day: int) -> float:
        """Probability that the birth comes after this (ordinal) day."""
        return sum(
            weight * self.longer.between(day - last, day - first)
            for first, last, weight in self.runs
        )

    def day(self, share: float, today: date) -> date:
        """First day by which `share` of the births still possible have come."""
        start = today.toordinal()
        left = self.after(start - 1) * (1 - share)
        low, high = start - 1, start
        while high - start < FARTHEST_DAYS and self.after(high) > left:
            low, high = high, high + max(high - low, 16) * 2
        while high - low > 1:
            middle = (low + high) // 2
            low, high = (low, middle) if self.after(middle) <= left else (middle, high)
        return date.fromordinal(high)


class _Longer:
    """Probability of more than so many days of gestation, found when it is asked for.

    What was found is kept as running sums over the days from `first` on, so that the chance
    over a run of days costs as much as that of one.
    """

    def __init__(self, belief: GestationPrior) -> None:
        self._belief = belief
        self._first = round(belief.likely_days)
        self._up, self._down = [0.0], [0.0]
        self._lengthening = Lock()

    def at(self, days: int) -> float:
        """Probability of more than so many days."""
        return 0.5 * erfc(self._belief.deviate(days + 0.5) / sqrt(2))

    def between(self, least: int, most: int) -> float:
        """The sum over each length from `least` to `most`."""
        return self._until(most) - self._until(least - 1)

    def _until(self, days: int) -> float:
        """The sum from `first` to a length; below it, less what lies between."""
        steps = days - self._first + 1
        sums = self._up if steps >= 0 else self._down
        if len(sums) <= abs(steps):
            # Screens ask in threads of their own, and dams share this.
            with self._lengthening:
                while len(self._up) <= steps:
                    self._up.append(self._up[-1] + self.at(self._first + len(self._up) - 1))
                while len(self._down) <= -steps:
                    self._down.append(self._down[-1] - self.at(self._first - len(self._down)))
        return sums[abs(steps)]


@lru_cache(maxsize=512)
def _longer(belief: GestationPrior) -> _Longer:
    """The same for every dam of whom as much is believed: those without a birth are many."""
    return _Longer(belief)


def _records_basis(past: Past, dam: str) -> str:
    own, all_ = past.counts.get(dam, 0), sum(past.counts.values())
    if not all_:
        return "species defaults, no birth recorded"
    return f"{own} of her own births, {all_ - own} of the colony's"
