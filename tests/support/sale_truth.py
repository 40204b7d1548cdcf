"""Colonies of pups whose day of readiness is drawn: what a promise is held against."""

from collections.abc import Mapping
from datetime import date

import numpy as np

from colony.planning.orders.promises import (
    BIRTH_Z,
    GROWTH_Z,
    Coming,
    GrowingPup,
    Interval,
    count_ready,
)

TODAY = date(2026, 3, 9)


def colony(
    chance: np.random.Generator, pups: int, litters: int
) -> tuple[list[GrowingPup], list[Coming]]:
    """Pups of one species of both sexes, some of them ready, and litters to come."""
    growing = []
    for _ in range(pups):
        likely = float(chance.choice([0, chance.uniform(5, 150)], p=[0.2, 0.8]))
        low, high = likely * chance.uniform(0.5, 0.9), likely * chance.uniform(1.1, 1.8)
        sex = "FM"[int(chance.integers(2))]
        growing.append(
            GrowingPup("motoro", sex, Interval(low, likely, high), chance.uniform(0.9, 1))
        )
    coming = []
    for _ in range(litters):
        birth = float(chance.uniform(5, 100))
        window = Interval(max(birth - 15, 0), birth, birth + chance.uniform(8, 25))
        days = float(chance.uniform(60, 120))
        ready = Interval(days * 0.75, days, days * 1.4)
        sizes = {3: 0.2, 5: 0.4, 7: 0.3, 9: 0.1}
        coming.append(Coming("motoro", window, sizes, {"F": ready, "M": ready}, 0.95, 0.8))
    return growing, coming


def ready_days(
    chance: np.random.Generator, growing: list[GrowingPup], coming: list[Coming], shared: float
) -> Mapping[str, list[float]]:
    """The day on which each pup that lives is ready, by sex, once as it may come."""
    common = float(chance.standard_normal())
    days: dict[str, list[float]] = {"F": [], "M": []}
    for pup in growing:
        if chance.random() < pup.lives:
            days[pup.sex].append(_drawn(chance, pup.ready, GROWTH_Z, common, shared))
    for litter in coming:
        if chance.random() >= litter.chance:
            continue
        born = max(_drawn(chance, litter.birth, BIRTH_Z, 0.0, 0.0), 0.0)
        for _ in range(int(chance.choice(list(litter.sizes), p=list(litter.sizes.values())))):
            sex = "FM"[int(chance.integers(2))]
            if chance.random() < litter.lives:
                days[sex].append(born + _drawn(chance, litter.ready[sex], GROWTH_Z, common, shared))
    return days


def held(  # noqa: PLR0913 - what is drawn, and how often
    seed: int, *, pups: int, litters: int, truth: float, colonies: int, weeks: int = 24
) -> float:
    """How often at least the sure number was there, of colonies, sexes and every fourth week."""
    chance = np.random.default_rng(seed)
    seen = []
    for _ in range(colonies):
        growing, coming = colony(chance, pups, litters)
        counts = count_ready(growing, coming, weeks=range(4, weeks + 1, 4), today=TODAY)
        days = ready_days(chance, growing, coming, truth)
        seen += [
            sum(day <= 7 * each.week - 1 for day in days[each.sex]) >= each.sure
            for each in counts
            if each.sure > 0
        ]
    return float(np.mean(seen))


def _drawn(
    chance: np.random.Generator, interval: Interval, half_width: float, common: float, shared: float
) -> float:
    deviate = np.sqrt(shared) * common + np.sqrt(1 - shared) * float(chance.standard_normal())
    side = interval.high - interval.likely if deviate > 0 else interval.likely - interval.low
    return float(interval.likely + deviate * side / half_width)
