"""How long a dam carries, and when her litter is due.

A length of gestation is placed on a scale where the species' low, likely and high days
are the 5 %, 50 % and 95 % points of a standard normal. On that scale the model is plain:
a colony differs from its species, a dam from her colony, a litter from its dam, each
normally. Recorded births pull the prior to the colony and to the dam in proportion to
what they prove (the normal hierarchical model of Gelman et al., Bayesian Data Analysis,
3rd ed. 2013, ch. 5).
"""

from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from math import sqrt

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
    """How the variance of the species prior is split; common practice, no source.

    The three parts sum to 1. `weight` is how many births the prior of the spread within
    a colony is worth.
    """

    colony: float = 0.80
    dam: float = 0.07
    litter: float = 0.13
    weight: float = 3.0


@dataclass(frozen=True)
class GestationBelief:
    """The next gestation of one dam, on the normal scale of the species prior."""

    mean: float
    sd: float


@dataclass(frozen=True)
class Past:
    """Recorded gestations of one species, weighed once for the due windows of every dam.

    `seen` is (mean deviate, its variance within the dam) of each dam with births on record;
    `counts` is how many those are.
    """

    var_dam: float
    var_litter: float
    colony: float
    seen: Mapping[str, tuple[float, float]]
    counts: Mapping[str, int]

    @classmethod
    def weigh(
        cls, prior: GestationPrior, past: Sequence[GestationLength], shares: Shares = Shares()
    ) -> "Past":
        """Pool the gestations of each dam on the normal scale of the species prior."""
        within = _within_scale(prior, past, shares)
        var_litter = shares.litter * within
        by_dam: dict[str, list[GestationLength]] = defaultdict(list)
        for record in past:
            by_dam[record.dam].append(record)
        return cls(
            var_dam=shares.dam * within,
            var_litter=var_litter,
            colony=shares.colony,
            seen={name: _pooled(prior, by_dam[name], var_litter) for name in sorted(by_dam)},
            counts={name: len(litters) for name, litters in by_dam.items()},
        )

    def believe(self, dam: str) -> GestationBelief:
        """What the other dams prove of the colony, then what her own births prove of her."""
        mean, variance = 0.0, self.colony
        for name, (seen, noise) in self.seen.items():
            if name != dam:
                mean, variance = _update(mean, variance, seen, noise + self.var_dam)
        variance += self.var_dam
        if dam in self.seen:
            mean, variance = _update(mean, variance, *self.seen[dam])
        return GestationBelief(mean, sqrt(variance + self.var_litter))


def believe(
    prior: GestationPrior, past: Sequence[GestationLength], dam: str, shares: Shares = Shares()
) -> GestationBelief:
    """Shrink the species prior to the colony and to the dam by recorded births.

    Parameters
    ----------
    prior
        Days of gestation of the species.
    past
        Recorded gestations of the colony, of this species, the dam's own among them.
    dam
        The dam whose next gestation is asked for.
    shares
        The split of the prior variance into colony, dam and litter.

    Returns
    -------
    GestationBelief
        Mean and standard deviation of the predictive normal.
    """
    return Past.weigh(prior, past, shares).believe(dam)


def _update(mean: float, variance: float, seen: float, noise: float) -> tuple[float, float]:
    gain = variance / (variance + noise)
    return mean + gain * (seen - mean), variance * (1 - gain)


def _pooled(
    prior: GestationPrior, litters: Sequence[GestationLength], var_litter: float
) -> tuple[float, float]:
    """Mean of one dam's gestations, each weighed by its certainty, and its variance."""
    precisions = [
        1 / (var_litter + (record.spread_days / prior.spread_days(record.days)) ** 2)
        for record in litters
    ]
    total = sum(precisions)
    seen = sum(
        p * prior.deviate(record.days) for p, record in zip(precisions, litters, strict=True)
    )
    return seen / total, 1 / total


def _within_scale(prior: GestationPrior, past: Sequence[GestationLength], shares: Shares) -> float:
    """How much wider or narrower than the prior the births of this colony scatter."""
    expected = shares.dam + shares.litter
    if not past:
        return 1.0
    placed = [prior.deviate(record.days) for record in past]
    middle = sum(placed) / len(placed)
    scatter = sum((z - middle) ** 2 for z in placed)
    return (shares.weight + scatter / expected) / (shares.weight + len(placed) - 1)
