"""How many pups will be ready for buyers by the end of each week: likely, and with 90 %.

Each pup is ready by a day with a probability: that of its gates, times that of living until then.
Litters to come add the day of birth, the number of pups and, of each, the sex. All pups of a
colony share some of their luck (season, food): a part `SHARED` of the variance of each day is
common to all (one-factor model: Vasicek 2002, The distribution of loan portfolio value, Risk
15(12):160-162, from memory). Given the common part the counts are independent and are convolved;
no chance is drawn.
"""

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from functools import lru_cache
from math import comb, erfc, sqrt
from statistics import NormalDist

import numpy as np

from colony.planning.arrays import Floats

SHARED = 0.25
"""Common practice, no source."""

SURE = 0.9
"""With what probability the sure number is there."""

GROWTH_Z, BIRTH_Z = 1.2815515655446004, 1.6448536269514722
"""Standard normal quantiles of an 80 % and a 90 % interval."""

COMMON, WEIGHTS = np.polynomial.hermite_e.hermegauss(9)
BIRTHS = 11
"""How many days stand for a window of birth, each as likely."""

FEMALE = 0.5
"""Of the pups to come; common practice, no source."""

Key = tuple[str, str]
"""A species and a sex; U is not sexed."""


@dataclass(frozen=True)
class Interval:
    """A number of days from today (or from birth): an interval and what is likely in it."""

    low: float
    likely: float
    high: float

    def reached(self, day: float, half_width: float, common: Floats, shared: float) -> Floats:
        """Probability of being at most `day`, given the common luck; split-normal about likely."""
        deviate = self._deviate(day, half_width)
        return _normal((deviate - np.sqrt(shared) * common) / np.sqrt(1 - shared))

    def at(self, share: float, half_width: float) -> float:
        """The day below which a share of the belief lies."""
        z = _quantile(share)
        side = self.high - self.likely if z > 0 else self.likely - self.low
        return self.likely + z * side / half_width

    def _deviate(self, day: float, half_width: float) -> float:
        side = self.high - self.likely if day > self.likely else self.likely - self.low
        gap = day - self.likely
        if side <= 0:
            return float("inf") if gap >= 0 else float("-inf")
        return gap / side * half_width


@dataclass(frozen=True)
class GrowingPup:
    """A pup that is here and free: in how many days it is ready (80 %), and whether it lives."""

    species: str
    sex: str
    ready: Interval
    lives: float = 1.0


@dataclass(frozen=True)
class Coming:
    """A litter to come: days to its birth (90 %), its sizes, and what each pup needs then.

    `sizes` are numbers of live pups with their probabilities; `chance` that it comes at all;
    `ready` the days from birth on by sex (80 %).
    """

    species: str
    birth: Interval
    sizes: Mapping[int, float]
    ready: Mapping[str, Interval]
    lives: float = 1.0
    chance: float = 1.0


@dataclass(frozen=True)
class WeekCount:
    """How many of a species and sex are ready by the end of a week, `until` its last day."""

    species: str
    sex: str
    week: int
    until: date
    likely: int
    sure: int


def count_ready(
    growing: Iterable[GrowingPup],
    coming: Iterable[Coming],
    *,
    weeks: range,
    today: date,
    shared: float = SHARED,
) -> list[WeekCount]:
    """Count, by species and sex, who is ready by the end of some weeks; 1 begins today."""
    here: dict[Key, list[GrowingPup]] = defaultdict(list)
    for pup in growing:
        here[pup.species, pup.sex].append(pup)
    due: dict[Key, list[Coming]] = defaultdict(list)
    for litter in coming:
        for sex in litter.ready:
            due[litter.species, sex].append(litter)
    found = []
    for species, sex in sorted(here.keys() | due.keys()):
        key = (species, sex)
        for week in weeks:
            counts = distribution(here[key], due[key], sex, 7 * week - 1, shared)
            until = today + timedelta(days=7 * week - 1)
            found.append(WeekCount(species, sex, week, until, *_told(counts)))
    return found


def distribution(
    here: Sequence[GrowingPup], due: Sequence[Coming], sex: str, day: float, shared: float
) -> Floats:
    """Probabilities of 0, 1, 2 ... ready by a day, from today on."""
    total = _of_pups(here, day, shared)
    for litter in due:
        total = _convolved(total, _of_litter(litter, sex, day, shared))
    weights = WEIGHTS / WEIGHTS.sum()
    counts: Floats = weights @ total
    return counts


def _of_pups(pups: Sequence[GrowingPup], day: float, shared: float) -> Floats:
    """The Poisson-binomial of the pups that are here, for each common luck; shape (9, n + 1)."""
    total = np.ones((len(COMMON), 1))
    for pup in pups:
        ready = pup.lives * pup.ready.reached(day, GROWTH_Z, COMMON, shared)
        total = _convolved(total, np.stack([1 - ready, ready], axis=1))
    return total


def _of_litter(litter: Coming, sex: str, day: float, shared: float) -> Floats:
    """How many of one sex of a litter to come, for each common luck."""
    half = FEMALE if sex == "F" else 1 - FEMALE
    births = [litter.birth.at((n + 0.5) / BIRTHS, BIRTH_Z) for n in range(BIRTHS)]
    ready = litter.ready[sex]
    each = np.stack(
        [ready.reached(day - max(born, 0.0), GROWTH_Z, COMMON, shared) for born in births]
    )
    total = np.zeros((len(COMMON), max(litter.sizes, default=0) + 1))
    for size, chance in litter.sizes.items():
        total[:, : size + 1] += chance * _binomial(size, half * litter.lives * each).mean(axis=0)
    total *= litter.chance
    total[:, 0] += 1 - litter.chance
    return total


def _binomial(size: int, chance: Floats) -> Floats:
    """Probabilities of 0 to `size` of as many, for each chance; one axis more."""
    ways = np.array([comb(size, count) for count in range(size + 1)], dtype=np.float64)
    counts = np.arange(size + 1)
    each = chance[..., np.newaxis]
    found: Floats = ways * each**counts * (1 - each) ** (size - counts)
    return found


def _convolved(first: Floats, second: Floats) -> Floats:
    """The sum of two counts, for each common luck."""
    total = np.zeros((len(first), first.shape[1] + second.shape[1] - 1))
    for at in range(second.shape[1]):
        total[:, at : at + first.shape[1]] += first * second[:, at : at + 1]
    return total


def _told(counts: Floats) -> tuple[int, int]:
    """The likely number (the median), and the one that is reached with `SURE`."""
    at_least = np.cumsum(counts[::-1])[::-1]
    likely = int(np.flatnonzero(at_least >= 0.5 - 1e-12)[-1])
    return likely, int(np.flatnonzero(at_least >= SURE - 1e-9)[-1])


def _normal(deviates: Floats) -> Floats:
    """The standard normal distribution."""
    return np.array([0.5 * erfc(-value / sqrt(2)) for value in deviates])


@lru_cache(maxsize=64)
def _quantile(share: float) -> float:
    return NormalDist().inv_cdf(share)
