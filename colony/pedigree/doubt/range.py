"""The least and the greatest that F and kinship can be, over what the doubtful sires may be."""

from dataclasses import dataclass

import numpy as np

from colony.pedigree.doubt.assignments import Assignments, affected_by_doubt, assignments
from colony.pedigree.graph.above import above
from colony.pedigree.graph.graph import Pedigree
from colony.pedigree.graph.nodes import BoolArray, FloatArray, IntArray, Nodes
from colony.pedigree.kinship.sweep import Mixing, sweep

EXTREMES = (Mixing.LEAST, Mixing.GREATEST)

CELLS_TO_TRY = 1 << 26
"""Table entries that going through assignments may take in one call, about a second's worth."""


@dataclass(frozen=True, eq=False)
class Range:
    """Least and greatest of each figure, (k,).

    Where `exact` is False, too many assignments were possible to go through them all: no
    assignment goes beyond the two figures, but they may lie wider than need be.
    """

    least: FloatArray
    greatest: FloatArray
    exact: BoolArray


def inbreeding_range(pedigree: Pedigree, of: IntArray, cells: int = CELLS_TO_TRY) -> Range:
    """Least and greatest F of the animals at some positions, in their order.

    Parameters
    ----------
    of
        Positions of the animals, (k,).
    cells
        Work that going through assignments may take; what is over that gets bounds.
    """
    part = above(pedigree.nodes, of)
    nodes, here = part.nodes, part.place[of]
    least, greatest = (sweep(nodes, mixing=mixing).between_parents[here] for mixing in EXTREMES)
    pairs = np.stack((nodes.first[here], nodes.second[here]), axis=1)
    return _narrowed(nodes, pairs, Range(least, greatest, least == greatest), cells)


def kinship_range(
    pedigree: Pedigree, first: IntArray, second: IntArray, cells: int = CELLS_TO_TRY
) -> Range:
    """Least and greatest kinship of each pair of animals: F of the pup that the two would have.

    Parameters
    ----------
    first, second
        Positions of the two of each pair, (k,).
    cells
        As for `inbreeding_range`.
    """
    part = above(pedigree.nodes, np.concatenate((first, second)))
    pairs = np.stack((part.place[first], part.place[second]), axis=1)
    kept, at = np.unique(pairs, return_inverse=True)
    left, right = at.reshape(pairs.shape).T
    least, greatest = (sweep(part.nodes, kept, extreme).kept[left, right] for extreme in EXTREMES)
    return _narrowed(part.nodes, pairs, Range(least, greatest, least == greatest), cells)


def _narrowed(nodes: Nodes, pairs: IntArray, bounds: Range, cells: int) -> Range:
    """Go through the assignments of each pair, (k, 2), while they are few, the simplest first."""
    cases = _affordable(nodes, pairs[~bounds.exact], cells)
    kept = np.unique(np.concatenate([np.empty(0, np.int64), *(case.settled for case in cases)]))
    kinship = sweep(nodes, kept).kept
    for case in cases:
        at = np.searchsorted(kept, case.settled)
        here = (pairs == (case.first, case.second)).all(axis=1)
        extremes = case.extremes(nodes, kinship[np.ix_(at, at)])
        bounds.least[here], bounds.greatest[here] = extremes
        bounds.exact[here] = True
    return bounds


def _affordable(nodes: Nodes, pairs: IntArray, cells: int) -> list[Assignments]:
    """The cases of the pairs, the simplest first, that the work allowed is enough for."""
    affected = affected_by_doubt(nodes)
    every = {(int(first), int(second)) for first, second in pairs}
    cases = sorted(
        (assignments(nodes, affected, *pair) for pair in every), key=lambda case: case.cells
    )
    spent = np.cumsum([case.cells for case in cases], dtype=np.float64)
    return cases[: int(np.searchsorted(spent, cells, side="right"))]
