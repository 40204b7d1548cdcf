"""Kinship of two animals under every assignment of the doubtful sires above them."""

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import islice, product
from math import prod

import numpy as np

from colony.pedigree.doubts import UNKNOWN
from colony.pedigree.nodes import FloatArray, IntArray, Nodes

_CELLS_AT_ONCE = 1 << 21


@dataclass(frozen=True, eq=False)
class Assignments:
    """All that the doubtful sires above two nodes may be, ready to be gone through.

    Attributes
    ----------
    relevant
        The two nodes and their ancestors, parents before pups.
    choices
        The doubtful sires among them with the sires that each may be.
    """

    nodes: Nodes
    one: int
    other: int
    relevant: IntArray
    choices: tuple[tuple[int, tuple[int, ...]], ...]

    @property
    def cells(self) -> int:
        """Entries of all the kinship tables that going through them takes."""
        return prod(len(sires) for _, sires in self.choices) * len(self.relevant) ** 2

    def extremes(self) -> tuple[float, float]:
        """Least and greatest kinship of the two."""
        at_once = max(1, _CELLS_AT_ONCE // len(self.relevant) ** 2)
        every = product(*(sires for _, sires in self.choices))
        found = [self._kinship(np.array(some, dtype=np.int64)) for some in _batched(every, at_once)]
        return min(one.min() for one in found), max(one.max() for one in found)

    def _kinship(self, assigned: IntArray) -> FloatArray:
        """Kinship of the two under some assignments (a, choices), by the plain table (m, m, a)."""
        unknown = len(self.relevant)
        place = np.full(len(self.nodes) + 1, unknown)
        place[self.relevant] = np.arange(unknown)
        chosen = {node: place[assigned[:, at]] for at, (node, _) in enumerate(self.choices)}
        table = np.zeros((unknown + 1, unknown + 1, len(assigned)))
        table[unknown, unknown] = 0.5
        for at, node in enumerate(self.relevant.tolist()):
            if node in chosen:
                row, own = _as_chosen(table, chosen[node])
            else:
                row, own = self._as_pup(table, node, place)
            table[at], table[:, at] = row, row
            table[at, at] = own
        one, other = place[self.one], place[self.other]
        return np.asarray(table[one, other] if unknown not in (one, other) else np.zeros(1))

    def _as_pup(
        self, table: FloatArray, node: int, place: IntArray
    ) -> tuple[FloatArray, FloatArray]:
        nodes, unknown = self.nodes, len(table) - 1
        first, second = place[nodes.first[node]], place[nodes.second[node]]
        row = np.zeros_like(table[0])
        for parent, share in ((first, nodes.first_share[node]), (second, nodes.second_share[node])):
            if parent != unknown:
                row += share * table[parent]
        given = nodes.given_own[node]
        between = table[first, second] if unknown not in (first, second) else 0.0 * row[0]
        return row, (1 + between) / 2 if np.isnan(given) else np.full_like(row[0], given)


def assignments(nodes: Nodes, one: int, other: int) -> Assignments:
    """Lay out what the doubtful sires above two nodes may be; -1 for a node is nobody known."""
    asked = np.array([node for node in (one, other) if node != UNKNOWN], dtype=np.int64)
    found = nodes.ancestors_of(asked)
    choices = tuple(
        (node, tuple(sire for sire, _ in possible))
        for node, possible in nodes.choices
        if found[node]
    )
    found[nodes.is_doubtful_sire] = False
    found[[node for node, _ in choices]] = True
    return Assignments(nodes, one, other, nodes.order[found[nodes.order]], choices)


def _as_chosen(table: FloatArray, chosen: IntArray) -> tuple[FloatArray, FloatArray]:
    every, unknown = np.arange(len(chosen)), len(table) - 1
    row = np.where(chosen == unknown, 0.0, table[chosen, :, every].T)
    return row, table[chosen, chosen, every]


def _batched(every: Iterator[tuple[int, ...]], size: int) -> Iterator[list[tuple[int, ...]]]:
    while batch := list(islice(every, size)):
        yield batch
