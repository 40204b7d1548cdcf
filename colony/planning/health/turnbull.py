"""Survival where a death is only known to lie between two days: Turnbull's estimate."""

from bisect import bisect_left
from collections import Counter
from collections.abc import Sequence
from itertools import pairwise
from math import inf

import numpy as np

from colony.planning.arrays import Floats

ROUNDS, STILL = 20_000, 1e-10
"""When the iteration ends: after so many rounds, or when no share moves by more."""

Lifespan = tuple[int, int | None]
"""Alive on a day, and dead on a later one; None for one that was never seen dead."""


def innermost(spans: Sequence[Lifespan]) -> list[tuple[float, float]]:
    """The intervals that can hold a death in the estimate: ``(after, up to and with)``.

    Each begins where some lifespan is last seen alive and ends where some is first seen dead,
    with no other such day between.
    """
    begins = {(float(alive), 0) for alive, _ in spans}
    ends = {(inf if dead is None else float(dead), 1) for _, dead in spans}
    # An end comes before a beginning of the same day: who is dead on it died by then.
    days = sorted(begins | ends, key=lambda day: (day[0], -day[1]))
    return [(a, b) for (a, first), (b, then) in pairwise(days) if (first, then) == (0, 1)]


def turnbull(spans: Sequence[Lifespan]) -> list[tuple[float, float, float]]:
    """Estimate the share that dies in each innermost interval.

    Parameters
    ----------
    spans
        Lifespans, one an animal; a death known to the day has the day before as its first.

    Returns
    -------
    list of (after, up to, share)
        By age; the shares sum to 1, and that of an interval without an end lives on.

    References
    ----------
    Turnbull 1976, The empirical distribution function with arbitrarily grouped, censored and
    truncated data, J. R. Stat. Soc. B 38:290-295: his self-consistent estimate, by his own
    iteration.
    """
    intervals = innermost(spans)
    counted = Counter(spans)
    inside = np.array(
        [
            [alive <= a and b <= (inf if dead is None else dead) for a, b in intervals]
            for alive, dead in counted
        ],
        dtype=float,
    )
    times: Floats = np.array(list(counted.values()), dtype=float)
    shares: Floats = np.full(len(intervals), 1 / len(intervals))
    for _ in range(ROUNDS):
        of_span = inside @ shares
        moved = shares * (inside.T @ (times / of_span)) / times.sum()
        still = np.abs(moved - shares).max() < STILL
        shares = moved
        if still:
            break
    return [(a, b, float(share)) for (a, b), share in zip(intervals, shares, strict=True)]


def alive_at(spans: Sequence[Lifespan], at_days: Sequence[int]) -> list[float]:
    """The share alive after each day.

    Within an interval the estimate does not say when; there the deaths are spread evenly.
    """
    found = turnbull(spans)
    ends = [up_to for _, up_to, _ in found]
    shares = []
    for day in at_days:
        before = bisect_left(ends, day + 0.5)
        died = sum(share for _, _, share in found[:before])
        if before < len(found):
            after, up_to, share = found[before]
            if after < day and up_to < inf:
                died += share * (day - after) / (up_to - after)
        shares.append(1 - died)
    return shares
