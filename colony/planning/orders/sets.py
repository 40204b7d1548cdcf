"""Sets of animals for orders, no animal twice: exact, by the least kinship within a set.

In this order: as many orders as possible in the order of the queue; the least greatest kinship
of any set; the least sum of the mean kinships of the sets. Full sibs of one kind, price and
readiness are one class: no plan need tell them apart. Solved by HiGHS; what a time did not
prove is said.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

import numpy as np

from colony.planning.arrays import Index
from colony.planning.orders.set_model import (
    TOLERANCE,
    Classes,
    SaleStock,
    SetWanted,
    classes_of,
    model_of,
)
from colony.planning.solver.highs import solve

__all__ = ["SaleStock", "SetFound", "SetWanted", "SetsFound", "best_sets", "sets_for"]

NODES = 200_000
SURE_SECONDS = 5.0
"""For what was solved a moment ago already."""

LAST_SECONDS = 2.0
"""What is kept of the time for all orders together."""

PROVED = 1e-6
"""A gap below this is the arithmetic of a solver."""


@dataclass(frozen=True)
class SetFound:
    """A set, by the places of its animals, or none."""

    members: tuple[int, ...]
    greatest_kinship: float
    mean_kinship: float


@dataclass(frozen=True)
class SetsFound:
    """A set for each order that can have one, and whether that is proved to be the best.

    `gap` is how far the sum of mean kinships may be above the least, None where nothing is known.
    """

    sets: tuple[SetFound | None, ...]
    proven: bool
    gap: float | None


@dataclass
class _Time:
    """What is left of the time for all solves together."""

    clock: Callable[[], float]
    until: float
    proven: bool = True

    def left(self) -> float:
        return max(self.until - self.clock(), 0.05)


def best_sets(
    stock: SaleStock, orders: Sequence[SetWanted], *, seconds: float, clock: Callable[[], float]
) -> SetsFound:
    """Find a set for as many orders as possible, the first ones first.

    Parameters
    ----------
    seconds, clock
        How long the solver may take in all, and what tells the time.
    """
    time = _Time(clock, clock() + seconds)
    classes = classes_of(stock, orders)
    filled = _who_can(classes, orders, time)
    chosen = [order for order, can in zip(orders, filled, strict=True) if can]
    if not chosen:
        return SetsFound((None,) * len(orders), time.proven, 0.0 if time.proven else None)
    limit = _least_greatest(classes, chosen, time)
    counts, gap = _least_sum(classes, chosen, limit, time)
    members = iter(_hand_out(classes, counts))
    sets = tuple(
        _found(stock, order, next(members)) if can else None
        for order, can in zip(orders, filled, strict=True)
    )
    return SetsFound(sets, time.proven, gap)


def sets_for(
    stock: SaleStock,
    order: SetWanted,
    *,
    most: int,
    seconds: float,
    clock: Callable[[], float],
) -> SetsFound:
    """The best sets for one order, each of other classes than those before it."""
    time = _Time(clock, clock() + seconds)
    classes = classes_of(stock, [order])
    found: list[SetFound] = []
    seen: list[Index] = []
    gap: float | None = 0.0
    while len(found) < most:
        if not _feasible(classes, [order], 1.0, time, without=seen):
            break
        limit = _least_greatest(classes, [order], time, without=seen)
        counts, after = _least_sum(classes, [order], limit, time, without=seen)
        gap = gap if found else after
        found.append(_found(stock, order, _hand_out(classes, counts)[0]))
        seen.append(counts[0])
    return SetsFound(tuple(found), time.proven, gap)


def _who_can(classes: Classes, orders: Sequence[SetWanted], time: _Time) -> list[bool]:
    """Which orders get a set: the first that can, then the next beside it, and so on."""
    if _feasible(classes, orders, 1.0, time):
        return [True] * len(orders)
    chosen: list[SetWanted] = []
    can = []
    for order in orders:
        possible = _feasible(classes, [*chosen, order], 1.0, time)
        chosen += [order] if possible else []
        can.append(possible)
    return can


def _least_greatest(
    classes: Classes, orders: Sequence[SetWanted], time: _Time, without: Sequence[Index] = ()
) -> float:
    """The least kinship that no pair of any set need exceed."""
    levels = np.unique(np.round(classes.kinship, 12))
    low, high = 0, len(levels) - 1
    while low < high:
        middle = (low + high) // 2
        if _feasible(classes, orders, float(levels[middle]), time, without=without):
            high = middle
        else:
            low = middle + 1
    return float(levels[low])


def _feasible(
    classes: Classes,
    orders: Sequence[SetWanted],
    limit: float,
    time: _Time,
    without: Sequence[Index] = (),
) -> bool:
    if not classes.of:
        return False
    model, _ = model_of(classes, orders, limit, without)
    found = solve(model, seconds=time.left(), nodes=NODES)
    if found.values is None and not found.impossible:
        time.proven = False
    return found.values is not None


def _least_sum(
    classes: Classes,
    orders: Sequence[SetWanted],
    limit: float,
    time: _Time,
    without: Sequence[Index] = (),
) -> tuple[list[Index], float | None]:
    """How many of each class each order gets, and how far that may be from the least sum.

    Each order alone bounds the sum from below. A set at a time is made better while the others
    stand; only what is left then is asked of all orders together.
    """
    alone = [_together(classes, [order], limit, time, without) for order in orders]
    if len(orders) == 1:
        counts, bound = alone[0]
    else:
        bound = sum(least for _, least in alone)
        counts = _one_by_one(classes, orders, limit, time)
        if _cost(classes, orders, counts) > bound + TOLERANCE:
            joint, least = _together(classes, orders, limit, time)
            counts = min((counts, joint), key=lambda tried: _cost(classes, orders, tried))
            bound = max(bound, least)
    gap = max(_cost(classes, orders, counts) - bound, 0.0)
    time.proven &= gap <= PROVED
    return counts, 0.0 if gap <= PROVED else gap


def _one_by_one(
    classes: Classes, orders: Sequence[SetWanted], limit: float, time: _Time
) -> list[Index]:
    """Sets that are there, each in turn made the best beside the others."""
    model, blocks = model_of(classes, orders, limit, ())
    found = solve(model, seconds=SURE_SECONDS, nodes=NODES)
    assert found.values is not None  # noqa: S101 - the same rows had an answer a moment ago
    counts = [block.whole_counts(found.values) for block in blocks]
    better = True
    while better and time.left() > LAST_SECONDS:
        better = False
        for at, order in enumerate(orders):
            others = sum((counts[n] for n in range(len(orders)) if n != at), 0 * counts[at])
            free = replace(classes, sizes=classes.sizes - others)
            tried = _together(free, [order], limit, time)[0]
            if _cost(classes, [order], tried) < _cost(classes, [order], [counts[at]]) - TOLERANCE:
                counts[at], better = tried[0], True
    return counts


def _together(
    classes: Classes,
    orders: Sequence[SetWanted],
    limit: float,
    time: _Time,
    without: Sequence[Index] = (),
) -> tuple[list[Index], float]:
    """Counts of least cost for some orders as far as there is time, and what bounds that."""
    model, blocks = model_of(classes, orders, limit, without, costs=True)
    found = solve(model, seconds=time.left(), nodes=NODES)
    bound = found.bound if found.values is not None else 0.0
    if found.values is None:
        # What is feasible was found before: without time for the costs, that is the answer.
        model, blocks = model_of(classes, orders, limit, without)
        found = solve(model, seconds=SURE_SECONDS, nodes=NODES)
    assert found.values is not None  # noqa: S101 - the same rows had an answer a moment ago
    return [block.whole_counts(found.values) for block in blocks], max(bound, 0.0)


def _cost(classes: Classes, orders: Sequence[SetWanted], counts: Sequence[Index]) -> float:
    """The sum of the mean kinships of sets."""
    total = 0.0
    for order, taken in zip(orders, counts, strict=True):
        pairs = float(taken @ classes.kinship @ taken - taken @ np.diag(classes.kinship)) / 2
        total += pairs / max(order.size * (order.size - 1) / 2, 1)
    return total


def _hand_out(classes: Classes, counts: Sequence[Index]) -> list[tuple[int, ...]]:
    """The animals themselves, the first of each class first."""
    left = [list(members) for members in classes.of]
    return [
        tuple(left[at].pop(0) for at, count in enumerate(taken) for _ in range(int(count)))
        for taken in counts
    ]


def _found(stock: SaleStock, order: SetWanted, members: tuple[int, ...]) -> SetFound:
    places = np.array(members, dtype=np.intp)
    kin = stock.kinship[np.ix_(places, places)]
    pairs = kin[np.triu_indices(len(places), k=1)]
    had = () if order.had is None else order.had[places]
    return SetFound(
        members,
        float(max([0.0, *pairs, *had])),
        float(pairs.mean()) if len(pairs) else 0.0,
    )
