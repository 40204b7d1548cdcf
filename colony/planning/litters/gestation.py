"""How long a dam carries, and when her litter is due.

A species' low, likely and high days of gestation are the 5 %, 50 % and 95 % points of two
normals joined at the likely day. Most of that reach is doubt about the colony: how long its
own dams carry on the whole. Its dams differ less, and litters of one dam less still; how much,
the narrower side of the species bounds. A colony differs from its species, a dam from her
colony, a litter from its dam, each normally; recorded births prove the colony and the dam
(the normal hierarchical model of Gelman et al., Bayesian Data Analysis, 3rd ed. 2013, ch. 5).
"""

from collections import Counter, defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from functools import cached_property
from math import erfc, exp, sqrt

Z_TAIL = 1.6448536269514722
"""The standard normal deviate with 5 % of the births beyond it."""


@dataclass(frozen=True)
class GestationPrior:
    """What is known of a species before any birth of the colony: days of gestation."""

    low_days: float
    likely_days: float
    high_days: float

    def deviate(self, days: float) -> float:
        """Place a length of gestation on the normal scale; `likely_days` is 0."""
        return (days - self.likely_days) / self.spread_days(days)

    def spread_days(self, days: float) -> float:
        """One standard deviation, in days, on the side of `days`."""
        reach = (
            self.likely_days - self.low_days
            if days < self.likely_days
            else self.high_days - self.likely_days
        )
        return max(reach, 1.0) / Z_TAIL


@dataclass(frozen=True)
class GestationLength:
    """One recorded gestation: days from conception to birth, and how unsure that is."""

    dam: str
    days: float
    spread_days: float = 0.0

    @classmethod
    def between(
        cls, dam: str, conceived_from: date, conceived_to: date, born: date
    ) -> "GestationLength":
        """Take the middle of the days on which she may have conceived."""
        longest, shortest = (born - conceived_from).days, (born - conceived_to).days
        return cls(dam, (longest + shortest) / 2, (longest - shortest) / sqrt(12))


@dataclass(frozen=True)
class Shares:
    """What of the variance on the narrower side is scatter within a colony.

    `dam` is that between its dams and `litter` that between the litters of one; together they
    are at most `most_days` squared. `weight` is how many births that is worth beside the
    scatter of the births on record. Common practice, no source.
    """

    dam: float = 0.15
    litter: float = 0.30
    most_days: float = 6.0
    weight: float = 3.0

    def scatter(self, prior: GestationPrior) -> "Scatter":
        """Variances of dams and of litters, in square days."""
        narrow = min(prior.spread_days(days) for days in (prior.low_days, prior.high_days))
        both = self.dam + self.litter
        within = min(both * narrow**2, self.most_days**2)
        return Scatter(within * self.dam / both, within * self.litter / both)


@dataclass(frozen=True)
class Scatter:
    """Variances within a colony, in square days: between its dams, and between litters of one."""

    dam: float
    litter: float

    @property
    def both(self) -> float:
        """Variance of the gestations of a colony."""
        return self.dam + self.litter


Seen = tuple[float, float]
"""A mean length of gestation in days, and the variance with which it is known."""


@dataclass(frozen=True)
class Past:
    """Recorded gestations of one species, weighed once for the due windows of every dam.

    `scatter` is what is expected within the colony before its births, and `learned` after
    them; `seen` the mean of each dam with births on record; `counts` how many those are.
    """

    prior: GestationPrior
    scatter: Scatter
    learned: Scatter
    seen: Mapping[str, Seen]
    counts: Mapping[str, int]

    @classmethod
    def weigh(
        cls, prior: GestationPrior, past: Sequence[GestationLength], shares: Shares = Shares()
    ) -> "Past":
        """Pool the gestations of each dam."""
        scatter = shares.scatter(prior)
        wider = _learned(scatter, past, shares.weight)
        learned = Scatter(scatter.dam * wider, scatter.litter * wider)
        by_dam: dict[str, list[GestationLength]] = defaultdict(list)
        for record in past:
            by_dam[record.dam].append(record)
        return cls(
            prior=prior,
            scatter=scatter,
            learned=learned,
            seen={name: _pooled(by_dam[name], learned.litter) for name in sorted(by_dam)},
            counts={name: len(litters) for name, litters in by_dam.items()},
        )

    def believe(self, dam: str) -> GestationPrior:
        """Low, likely and high days of the next gestation of one dam, as a species has them."""
        if not self.seen:
            return self.prior
        return self._of_dam(self.seen[dam]) if dam in self.seen else self._newcomer

    @cached_property
    def _newcomer(self) -> GestationPrior:
        """What is believed of a dam without a birth on record: of each of them the same."""
        return _reach(self._colony, 1.0, 0.0, self.learned.both)

    def _of_dam(self, seen: Seen) -> GestationPrior:
        """Draw a dam from what the whole colony proves towards what her own births prove."""
        mean, noise = seen
        own = self.learned.dam / (self.learned.dam + noise)
        variance = self.learned.dam * (1 - own) + self.learned.litter
        return _reach(self._colony, 1 - own, own * mean, variance)

    @cached_property
    def _colony(self) -> tuple[tuple[float, float], ...]:
        """Means that the colony may have, in days, and the weight of each."""
        precisions = [1 / (noise + self.learned.dam) for _, noise in self.seen.values()]
        total = sum(precisions)
        means = [mean for mean, _ in self.seen.values()]
        proved = sum(p * mean for p, mean in zip(precisions, means, strict=True)) / total
        points: list[tuple[float, float]] = []
        likely = self.prior.likely_days
        for side in (self.prior.low_days, self.prior.high_days):
            spread = self.prior.spread_days(side)
            doubt = max(spread**2 - self.scatter.both, NO_DOUBT)
            both = 1 / (1 / doubt + total)
            mean, reach = both * (likely / doubt + proved * total), FARTHEST * sqrt(both)
            low, high = mean - reach, mean + reach
            low, high = (low, min(high, likely)) if side < likely else (max(low, likely), high)
            step = (high - low) / POINTS
            for n in range(POINTS if step > 0 else 0):
                day = low + (n + 0.5) * step
                off = (day - likely) ** 2 / doubt + (day - proved) ** 2 * total
                points.append((day, step / sqrt(doubt) * exp(-off / 2)))
        weight = sum(w for _, w in points)
        if not weight:
            return ((proved, 1.0),)
        return tuple((day, w / weight) for day, w in points)


POINTS, FARTHEST = 24, 4.5
"""Points on each side of the species' likely day that stand for the colony's mean, and how
many standard deviations they reach."""

NO_DOUBT = 0.25
"""The least variance of a colony's mean about its species, in square days."""

HALVINGS = 22
"""A reach of a year, halved so often, is less than a minute."""


def believe(
    prior: GestationPrior, past: Sequence[GestationLength], dam: str, shares: Shares = Shares()
) -> GestationPrior:
    """Draw the species prior towards the colony and the dam by recorded births.

    Parameters
    ----------
    prior
        Days of gestation of the species.
    past
        Recorded gestations of the colony, of this species, the dam's own among them.
    dam
        The dam whose next gestation is asked for.
    shares
        The scatter within a colony.

    Returns
    -------
    GestationPrior
        Low, likely and high days (5 %, 50 %, 95 %) of her next gestation; without a birth on
        record, those of the species.
    """
    return Past.weigh(prior, past, shares).believe(dam)


def _reach(
    colony: Sequence[tuple[float, float]], factor: float, plus: float, variance: float
) -> GestationPrior:
    """Find the 5 %, 50 % and 95 % points of ``factor * colony mean + plus``, blurred."""
    spread = sqrt(2 * variance)
    points = [(factor * day + plus, weight) for day, weight in colony]
    days = [day for day, _ in points]
    ends = min(days) - FARTHEST * spread, max(days) + FARTHEST * spread

    def reached(day: float) -> float:
        return 0.5 * sum(weight * erfc((mean - day) / spread) for mean, weight in points)

    found = []
    for share in (0.05, 0.5, 0.95):
        low, high = ends
        for _ in range(HALVINGS):
            middle = (low + high) / 2
            low, high = (middle, high) if reached(middle) < share else (low, middle)
        found.append((low + high) / 2)
    return GestationPrior(*found)


def _pooled(litters: Sequence[GestationLength], var_litter: float) -> Seen:
    """Mean of one dam's gestations, each weighed by its certainty, and its variance."""
    precisions = [1 / (var_litter + record.spread_days**2) for record in litters]
    total = sum(precisions)
    seen = sum(p * record.days for p, record in zip(precisions, litters, strict=True))
    return seen / total, 1 / total


def _learned(expected: Scatter, past: Sequence[GestationLength], weight: float) -> float:
    """How much wider or narrower than expected the births of this colony scatter, as a factor.

    Births of one dam lie closer to each other: they are worth less than as many of several.
    """
    if not past:
        return 1.0
    precisions = [1 / (expected.both + record.spread_days**2) for record in past]
    middle = sum(p * r.days for p, r in zip(precisions, past, strict=True)) / sum(precisions)
    scatter = sum(p * (r.days - middle) ** 2 for p, r in zip(precisions, past, strict=True))
    births = len(past)
    of_dam = Counter(record.dam for record in past)
    between = births - sum(n * n for n in of_dam.values()) / births
    worth = (expected.litter * (births - 1) + expected.dam * between) / expected.both
    return (weight + scatter) / (weight + worth)
