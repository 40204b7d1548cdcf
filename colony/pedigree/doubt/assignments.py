"""Kinship of pairs of animals under every assignment of the doubtful sires above them."""

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import islice, product
from math import prod

import numpy as np

from colony.pedigree.doubt.doubts import UNKNOWN
from colony.pedigree.graph.nodes import BoolArray, FloatArray, IntArray, Nodes

_CELLS_AT_ONCE = 1 << 21
_CELLS_OF_A_STEP = 1 << 12
"""What one step of the loop costs, counted as table entries."""


@dataclass(frozen=True, eq=False)
class Assignments:
    """All that the doubtful sires above two nodes may be, ready to be gone through.

    Attributes
    ----------
    first, second
        The two nodes.
    settled
        Nodes that no doubt touches and that the others take of.
    open
        Nodes that a doubt touches, parents before pups.
    choices
        The doubtful sires among them with the sires that each may be.
    """

    first: int
    second: int
    settled: IntArray
    open: IntArray
    choices: tuple[tuple[int, tuple[int, ...]], ...]

    @property
    def ways(self) -> int:
        """How many assignments there are."""
        return prod(len(sires) for _, sires in self.choices)

    @property
    def cells(self) -> int:
        """Table entries that going through them takes."""
        size = len(self.settled) + len(self.open)
        return self.ways * size**2 + len(self.open) * _CELLS_OF_A_STEP

    def extremes(self, nodes: Nodes, settled_kinship: FloatArray) -> tuple[float, float]:
        """Least and greatest kinship of the two.

        Parameters
        ----------
        settled_kinship
            Kinship among the settled nodes, in their order.
        """
        at_once = max(1, _CELLS_AT_ONCE // (len(self.settled) + len(self.open) + 1) ** 2)
        every = product(*(sires for _, sires in self.choices))
        found = [
            _CaseKinship(
                nodes, self, np.array(some, dtype=np.int64), settled_kinship
            ).between_the_two()
            for some in _batched(every, at_once)
        ]
        return min(float(cells.min()) for cells in found), max(
            float(cells.max()) for cells in found
        )


class _CaseKinship:
    """Kinship of all nodes of a case under some assignments, (m + 1, m + 1, ways).

    The last place stands for somebody unknown.
    """

    def __init__(
        self, nodes: Nodes, case: Assignments, assigned: IntArray, settled_kinship: FloatArray
    ) -> None:
        self.nodes, self.case = nodes, case
        members = np.concatenate((case.settled, case.open))
        self.unknown = len(members)
        self.place = np.full(len(nodes) + 1, self.unknown)
        self.place[members] = np.arange(self.unknown)
        self.table = np.zeros((self.unknown + 1, self.unknown + 1, len(assigned)))
        settled = len(case.settled)
        self.table[:settled, :settled] = settled_kinship[..., None]
        self.table[-1, -1] = 0.5
        self.chosen = {
            node: self.place[assigned[:, at]] for at, (node, _) in enumerate(case.choices)
        }

    def between_the_two(self) -> FloatArray:
        """Kinship of the two under each assignment."""
        for node in self.case.open.tolist():
            row, own = self._as_chosen(node) if node in self.chosen else self._as_pup(node)
            at = self.place[node]
            self.table[at], self.table[:, at] = row, row
            self.table[at, at] = own
        first, second = self.place[self.case.first], self.place[self.case.second]
        return np.asarray(self.table[first, second])

    def _as_chosen(self, node: int) -> tuple[FloatArray, FloatArray]:
        chosen, every = self.chosen[node], np.arange(self.table.shape[2])
        row = np.where(chosen == self.unknown, 0.0, self.table[chosen, :, every].T)
        return row, self.table[chosen, chosen, every]

    def _as_pup(self, node: int) -> tuple[FloatArray, FloatArray]:
        first, second = (
            self.place[parents[node]] for parents in (self.nodes.first, self.nodes.second)
        )
        row = np.zeros_like(self.table[0])
        for parent in (first, second):
            if parent != self.unknown:
                row += 0.5 * self.table[parent]
        known = self.unknown not in (first, second)
        return row, 0.5 + 0.5 * self.table[first, second] * known


def assignments(nodes: Nodes, affected: BoolArray, first: int, second: int) -> Assignments:
    """Lay out what the doubtful sires above two nodes may be.

    Parameters
    ----------
    affected
        Whether each node is in doubt or descends from one that is, (N,).
    """
    found = nodes.ancestors_of(np.array([first, second]))
    choices = tuple(
        (node, tuple(sire for sire, _ in possible))
        for node, possible in nodes.choices
        if found[node]
    )
    in_doubt = found & affected
    in_doubt[nodes.is_doubtful_sire] = False
    sires = [sire for _, possible in choices for sire in possible]
    used = np.concatenate((nodes.first[in_doubt], nodes.second[in_doubt], [first, second], sires))
    used = np.unique(used[used != UNKNOWN].astype(np.int64))
    in_doubt[[node for node, _ in choices]] = True
    settled = used[~affected[used]]
    return Assignments(first, second, settled, nodes.order[in_doubt[nodes.order]], choices)


def affected_by_doubt(nodes: Nodes) -> BoolArray:
    """Whether each node is a doubtful sire or descends from one, (N,)."""
    affected = np.append(nodes.is_doubtful_sire, False)
    for batch in nodes.by_step:
        affected[batch] |= affected[nodes.first[batch]] | affected[nodes.second[batch]]
    return affected[:-1]


def _batched(every: Iterator[tuple[int, ...]], size: int) -> Iterator[list[tuple[int, ...]]]:
    while batch := list(islice(every, size)):
        yield batch
