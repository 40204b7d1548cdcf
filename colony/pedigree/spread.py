"""The least and the greatest F over all that the sires in doubt may be.

While the assignments are few they are all tried, and the answer is exact. After that every
kinship is bounded entry by entry: the table of kinships rises when any of its entries does,
so the least (greatest) over the possible sires at each step bounds the whole from below (above).
"""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import product
from math import prod

import numpy as np
from numpy.typing import NDArray

from colony.pedigree.ancestry import Ancestry, ancestry
from colony.pedigree.graph import FloatArray, IntArray, Mixture, Pedigree
from colony.pedigree.inbreeding import inbreeding
from colony.pedigree.table import Mean, expected, greatest, kinship_table, least

MOST_TRIED = 64
"""Assignments that are tried one by one; beyond, bounds are given."""

WIDEST_TABLE = 4000
"""Ancestors for which a table is made at all; beyond, only the expected value is known."""


@dataclass(frozen=True)
class Spread:
    """Kinship of one pair over the assignments: expected, least, greatest; `exact`, or bounds."""

    expected: float
    least: float
    greatest: float
    exact: bool


def inbreeding_spread(pedigree: Pedigree, of: IntArray) -> list[Spread]:
    """F of some animals over what the sires in doubt may be, in their order."""
    doubtful = _has_doubt(pedigree)
    known: dict[tuple[int, int], Spread] = {}
    spreads = []
    for animal, f in zip(of.tolist(), inbreeding(pedigree, of).tolist(), strict=True):
        if not doubtful[animal]:
            spreads.append(Spread(f, f, f, exact=True))
            continue
        parents = int(pedigree.dam[animal]), int(pedigree.father[animal])
        if parents not in known:
            known[parents] = _spread_of_parents(pedigree, animal, f)
        spreads.append(known[parents])
    return spreads


def kinship_spread(pedigree: Pedigree, one: int, other: int, kinship: float) -> Spread:
    """Kinship of two animals over what the sires in doubt may be; `kinship` is its mean."""
    pair = np.array([one, other], dtype=np.int64)
    line = ancestry(pedigree, pair, whole=True)
    return _spread(line, (int(line.row[one]), int(line.row[other])), kinship)


def _has_doubt(pedigree: Pedigree) -> NDArray[np.bool_]:
    """Who has a sire in doubt somewhere among its ancestors, shape (n,)."""
    n, order = len(pedigree), pedigree.order
    doubtful = np.zeros(n + len(pedigree.mixtures) + 1, dtype=bool)
    doubtful[n:-1] = True
    level = order.level[order.nodes]
    for depth in range(1, int(level.max(initial=0)) + 1):
        here = order.nodes[level == depth]
        here = here[here < n]
        doubtful[here] = doubtful[pedigree.dam[here]] | doubtful[pedigree.father[here]]
    return np.asarray(doubtful[pedigree.dam] | doubtful[pedigree.father])


def _spread_of_parents(pedigree: Pedigree, animal: int, f: float) -> Spread:
    dam, father = int(pedigree.dam[animal]), int(pedigree.father[animal])
    if dam < 0 or father < 0:
        return Spread(f, f, f, exact=True)
    line = ancestry(pedigree, np.array([animal], dtype=np.int64), whole=False)
    return _spread(line, (int(line.row[dam]), int(line.row[father])), f)


def _spread(line: Ancestry, pair: tuple[int, int], mean: float) -> Spread:
    if not line.mixtures:
        return Spread(mean, mean, mean, exact=True)
    if len(line) > WIDEST_TABLE:
        return Spread(mean, 0.0, 1.0, exact=False)
    if prod(len(mixture.sires) for mixture in line.mixtures.values()) <= MOST_TRIED:
        found = [_kinship(settled, pair, expected) for settled in _assignments(line)]
        return Spread(mean, min(found), max(found), exact=True)
    low, high = _kinship(line, pair, least), _kinship(line, pair, greatest)
    return Spread(mean, min(low, mean), max(high, mean), exact=False)


def _kinship(line: Ancestry, pair: tuple[int, int], mean: Mean) -> float:
    return float(kinship_table(line, mean)[pair])


def _assignments(line: Ancestry) -> Iterator[Ancestry]:
    """The same ancestry with each unknown sire settled, in all ways."""
    choices = [[(row, _certain(mixture, at)) for at in range(len(mixture.sires))]
               for row, mixture in line.mixtures.items()]  # fmt: skip
    for settled in product(*choices):
        yield replace(line, mixtures=dict(settled))


def _certain(mixture: Mixture, at: int) -> Mixture:
    one: FloatArray = np.ones(1)
    return Mixture(mixture.sires[at : at + 1], one)
