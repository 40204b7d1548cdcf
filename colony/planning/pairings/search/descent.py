"""Good plans soon: litters of kinds exchanged one by one, and shaken loose where that ends.

Iterated local search: Lourenco, Martin & Stutzle 2003, in Handbook of Metaheuristics, ch. 11.
It proves nothing; `splits` and `kind_model` do.
"""

from dataclasses import dataclass

import numpy as np

from colony.planning.arrays import Bools, Floats, Index
from colony.planning.pairings.request import Deadline
from colony.planning.pairings.search.alike import Kinds

LEAST_GAIN = 1e-13
"""A better plan is better by more than rounding."""

AT_ONCE, WORK, SHAKES = 1_000_000, 30_000_000, 150
"""Exchanges looked at in one step, and in all; and how often a plan is shaken."""


@dataclass(frozen=True, eq=False)
class KindCosts:
    """What plans of `litters` litters of kinds cost, for the `weight` of their mean kinship."""

    kinds: Kinds
    litters: int
    weight: float

    @property
    def each(self) -> float:
        """What one unit of n' K n costs."""
        return self.weight / (4 * self.litters**2)

    def value(self, counts: Index) -> float:
        """The objective: mean F of the litters plus weighted mean kinship of the next generation."""
        kinds = self.kinds
        n, dams = kinds.litters_of(counts), kinds.dams
        even, over = np.divmod(n[dams:], kinds.size[dams:])
        squares = over * (even + 1) ** 2 + (kinds.size[dams:] - over) * even**2
        own = kinds.own[:dams] @ n[:dams] + kinds.own[dams:] @ squares
        between = float(n @ kinds.kinship @ n + own)
        return float(kinds.cost @ counts) / self.litters + self.each * between

    def one_more(self, n: Floats) -> Floats:
        """What one more litter of each pair would add, without its pair's own square, (Q,)."""
        return self._marginal(n, n[self.kinds.dams :])

    def one_less(self, n: Floats) -> Floats:
        """What one litter of each pair less would save, its pair's own square still in it, (Q,)."""
        return self._marginal(n, n[self.kinds.dams :] - 1)

    def _marginal(self, n: Floats, before: Floats) -> Floats:
        kinds, dams = self.kinds, self.kinds.dams
        slope = 2 * kinds.kinship @ n
        slope[:dams] += kinds.own[:dams]
        slope[dams:] += kinds.own[dams:] * (2 * (before // kinds.size[dams:]) + 1)
        marginal: Floats = kinds.cost / self.litters + self.each * (
            slope[kinds.dam] + slope[dams + kinds.sire]
        )
        return marginal

    def between(self, some: Index, others: Index) -> Floats:
        """Sum of the kinships of the parents of some pairs with those of others."""
        k, a = self.kinds, self.kinds.dams
        rows, columns = (k.dam[some], a + k.sire[some]), (k.dam[others], a + k.sire[others])
        return sum(
            (k.kinship[np.ix_(row, column)] for row in rows for column in columns),
            start=np.zeros((len(some), len(others))),
        )

    def square(self) -> Floats:
        """Kinship of the two parents of each pair among themselves, (Q,)."""
        k, a = self.kinds, self.kinds.dams
        own = np.diag(k.kinship)
        square: Floats = own[k.dam] + own[a + k.sire] + 2 * k.kinship[k.dam, a + k.sire]
        return square


def good_plan(costs: KindCosts, starts: list[Index], deadline: Deadline) -> Index:
    """Improve the starting plans by exchanges, and the best of them by shaking it.

    Returns the litters of each pair of kinds, (Q,), in a plan that keeps every limit.
    """
    search = _Exchanges(costs, deadline)
    best = min((search.descend(start) for start in starts), key=costs.value)
    chance, cost = np.random.default_rng(1), costs.value(best)
    for _ in range(SHAKES):
        if search.work > WORK or deadline.is_over():
            break
        shaken = search.shaken(best, int(chance.integers(2, 6)), chance)
        tried = search.descend(shaken)
        if (now := costs.value(tried)) <= cost + LEAST_GAIN:
            best, cost = tried, now
    return best


def descended(costs: KindCosts, counts: Index, deadline: Deadline) -> Index:
    """Improve a plan by exchanges until none helps."""
    return _Exchanges(costs, deadline).descend(counts)


def greedy_counts(costs: KindCosts) -> Index | None:
    """Add the litter that costs least, one after another; None where that ends too soon."""
    kinds, counts = costs.kinds, costs.kinds.required.copy()
    square = costs.each * costs.square()
    while counts.sum() < costs.litters:
        n = kinds.litters_of(counts)
        price = costs.one_more(n) + square
        price[~_has_room(kinds, n)] = np.inf
        best = int(price.argmin())
        if not np.isfinite(price[best]):
            return None
        counts[best] += 1
    return counts


def _has_room(kinds: Kinds, n: Floats) -> Bools:
    room = n < kinds.most
    free: Bools = room[kinds.dam] & room[kinds.dams + kinds.sire]
    return free


class _Exchanges:
    """Steps from plan to plan, each the best exchange of one litter for another."""

    def __init__(self, costs: KindCosts, deadline: Deadline) -> None:
        self.costs, self.kinds, self.deadline = costs, costs.kinds, deadline
        self.square, self.work = costs.square(), 0
        kinds = self.kinds
        self.number = np.full((kinds.dams, len(kinds.size) - kinds.dams), -1)
        self.number[kinds.dam, kinds.sire] = np.arange(len(kinds.cost))

    def descend(self, counts: Index) -> Index:
        counts = counts.copy()
        while not self.deadline.is_over():
            out, into, gain = self._best_exchange(counts)
            if gain >= -LEAST_GAIN:
                if not self._swap_mates(counts):
                    break
                continue
            counts[out] -= 1
            counts[into] += 1
        return counts

    def _best_exchange(self, counts: Index) -> tuple[int, int, float]:
        costs, kinds = self.costs, self.kinds
        n = kinds.litters_of(counts)
        more, less = costs.one_more(n), costs.one_less(n)
        out = np.flatnonzero(counts > kinds.required)
        into = np.argsort(more, kind="stable")[: max(AT_ONCE // max(len(out), 1), 1)]
        self.work += len(out) * len(into)
        if not len(out):
            return 0, 0, 0.0
        both = self.square[out][:, None] + self.square[into] - 2 * costs.between(out, into)
        gain = more[into] - less[out][:, None] + costs.each * both
        same_dam = kinds.dam[out][:, None] == kinds.dam[into]
        same_sire = kinds.sire[out][:, None] == kinds.sire[into]
        # A sire's kind that gives one and takes one has what it had.
        of = kinds.dams + kinds.sire[into]
        size, had = kinds.size[of], n[of]
        again = kinds.own[of] * 2 * ((had - 1) // size - had // size)
        gain += np.where(same_sire, costs.each * again, 0.0)
        room = n < kinds.most
        closed = ~(room[kinds.dam[into]] | same_dam) | ~(room[of] | same_sire)
        closed |= kinds.group[kinds.dam[out]][:, None] != kinds.group[kinds.dam[into]]
        gain[closed] = np.inf
        at = int(gain.argmin())
        row, column = divmod(at, len(into))
        return int(out[row]), int(into[column]), float(gain.ravel()[at])

    def _swap_mates(self, counts: Index) -> bool:
        """Let two litters exchange their sires if that lowers their F."""
        kinds = self.kinds
        some = np.flatnonzero(counts > kinds.required)
        crossed = self.number[np.ix_(kinds.dam[some], kinds.sire[some])]
        cost = np.where(crossed >= 0, kinds.cost[crossed], np.inf)
        gain = cost + cost.T - (kinds.cost[some][:, None] + kinds.cost[some])
        if not gain.size or gain.min() >= -LEAST_GAIN:
            return False
        one, other = divmod(int(gain.argmin()), len(some))
        counts[[some[one], some[other]]] -= 1
        counts[crossed[one, other]] += 1
        counts[crossed[other, one]] += 1
        return True

    def shaken(self, counts: Index, times: int, chance: np.random.Generator) -> Index:
        """Exchange a few litters for any others that fit."""
        kinds, counts = self.kinds, counts.copy()
        for _ in range(times):
            some = np.flatnonzero(counts > kinds.required)
            if not len(some):
                break
            out = chance.choice(some)
            counts[out] -= 1
            fits = _has_room(kinds, kinds.litters_of(counts))
            fits &= kinds.group[kinds.dam] == kinds.group[kinds.dam[out]]
            counts[chance.choice(np.flatnonzero(fits))] += 1
        return counts
