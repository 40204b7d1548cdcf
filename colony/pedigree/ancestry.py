"""The ancestors of some animals, renumbered so that parents come before pups.

Everything that is computed of a pedigree is computed on this: who is nobody's ancestor costs nothing.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from colony.pedigree.graph import UNKNOWN, IntArray, Mixture, Pedigree


@dataclass(frozen=True)
class Ancestry:
    """m nodes in levels: asked animals with `whole`, their ancestors, and unknown sires.

    `dam` and `sire` are rows of this table (-1 unknown) for animals; a mixture has neither,
    and its possible sires stand in `mixtures` by its row. `starts` bounds the levels, shape
    (levels + 1,). `row` gives the row of a position of the pedigree, or -1.
    """

    dam: IntArray
    sire: IntArray
    mixtures: dict[int, Mixture]
    starts: IntArray
    row: IntArray

    def __len__(self) -> int:
        return len(self.dam)

    def levels(self) -> Iterator[tuple[int, int]]:
        """First row and end of each level."""
        yield from zip(self.starts[:-1].tolist(), self.starts[1:].tolist(), strict=True)

    def first_levels(self, levels: int) -> "Ancestry":
        """The oldest levels alone."""
        end = int(self.starts[levels])
        mixtures = {row: mixture for row, mixture in self.mixtures.items() if row < end}
        return Ancestry(
            self.dam[:end], self.sire[:end], mixtures, self.starts[: levels + 1], self.row
        )

    def parents_only(self) -> "Ancestry":
        """Without the last levels in which nobody is a parent."""
        last = int(np.flatnonzero(self.is_parent()).max(initial=-1))
        return self.first_levels(int(np.searchsorted(self.starts, last, side="right")))

    def is_parent(self) -> NDArray[np.bool_]:
        """Who passes something on, shape (m,)."""
        passes_on = np.zeros(len(self) + 1, dtype=bool)
        passes_on[self.dam] = passes_on[self.sire] = True
        for mixture in self.mixtures.values():
            passes_on[mixture.sires] = True
        return passes_on[:-1]

    @cached_property
    def mixture_rows(self) -> IntArray:
        """Rows of the mixtures, in order."""
        return np.array(sorted(self.mixtures), dtype=np.int64)

    def mixtures_between(self, first: int, end: int) -> Iterator[tuple[int, Mixture]]:
        """The mixtures of one level."""
        rows = self.mixture_rows
        for row in rows[np.searchsorted(rows, first) : np.searchsorted(rows, end)].tolist():
            yield row, self.mixtures[row]


def ancestry(pedigree: Pedigree, of: IntArray, *, whole: bool) -> Ancestry:
    """Collect the ancestors of some animals.

    Parameters
    ----------
    of
        Positions of the animals asked for.
    whole
        Take the animals themselves too, also those who are nobody's parent.
    """
    order = pedigree.order
    wanted = _marked(pedigree, of)
    nodes = order.nodes[wanted[order.nodes]]
    level = order.level
    if whole:
        leaves = np.unique(of[level[of] == UNKNOWN])
        nodes = np.concatenate([nodes, leaves])
    return _renumbered(pedigree, nodes, level[nodes])


def _marked(pedigree: Pedigree, of: IntArray) -> NDArray[np.bool_]:
    """Mark everybody asked for and all their ancestors, from the youngest level up."""
    n, order = len(pedigree), pedigree.order
    marked = np.zeros(n + len(pedigree.mixtures) + 1, dtype=bool)
    marked[of] = True
    marked[pedigree.dam[of]] = marked[pedigree.father[of]] = True
    bounds = np.searchsorted(order.level[order.nodes], np.arange(order.level.max(initial=0) + 2))
    for first, end in zip(bounds[-2::-1].tolist(), bounds[:0:-1].tolist(), strict=True):
        here = order.nodes[first:end]
        here = here[marked[here]]
        animals = here[here < n]
        marked[pedigree.dam[animals]] = marked[pedigree.father[animals]] = True
        for node in here[here >= n].tolist():
            marked[pedigree.mixtures[node - n].sires] = True
    marked[-1] = False
    return marked[:-1]


def _renumbered(pedigree: Pedigree, nodes: IntArray, level: IntArray) -> Ancestry:
    n = len(pedigree)
    row = np.full(n + len(pedigree.mixtures) + 1, UNKNOWN, dtype=np.int64)
    row[nodes] = np.arange(len(nodes))
    animals = nodes < n
    dam, sire = np.full((2, len(nodes)), UNKNOWN, dtype=np.int64)
    dam[animals] = row[pedigree.dam[nodes[animals]]]
    sire[animals] = row[pedigree.father[nodes[animals]]]
    mixtures = {
        at: Mixture(row[mixture.sires], mixture.shares)
        for at in np.flatnonzero(~animals).tolist()
        for mixture in [pedigree.mixtures[nodes[at] - n]]
    }
    leaf_level = level.max(initial=0) + 1
    heights = np.where(level == UNKNOWN, leaf_level, level)
    starts = np.searchsorted(heights, np.arange(heights.max(initial=0) + 2))
    return Ancestry(dam, sire, mixtures, starts, row[:-1])
