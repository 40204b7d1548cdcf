"""One pass down the pedigree with a kinship table of those whose pups are still to come.

The recursion is the tabular one (Emik & Terrill 1949; Henderson 1976): the kinship of a newcomer
with anybody older is the mean of its parents' kinship with them. Many newcomers are taken at
once, and an animal leaves the table after its last pup, so that the table is as wide as the
breeders of one time and not as the book. The recursion is exact for expected kinship with
doubtful sires too, since it is linear in what each node takes of its parents.
"""

from dataclasses import dataclass
from enum import Enum

import numpy as np

from colony.pedigree.graph.nodes import FloatArray, IntArray, Nodes
from colony.pedigree.kinship.schedule import schedule
from colony.refusals.pedigree import TooManyBreeders

MOST_IN_TABLE = 20_000
"""Breeders at one time that the table may hold: 3.2 GB."""


class Mixing(Enum):
    """What a doubtful sire is to the others: the mean of the possible ones, or an extreme."""

    EXPECTED = "expected"
    LEAST = "least"
    GREATEST = "greatest"


@dataclass(frozen=True)
class Swept:
    """What one pass found.

    Attributes
    ----------
    between_parents
        Kinship between the two parents of each node, (N,); F for an animal.
    own
        Kinship of each node with itself, (N,).
    kept
        Kinship among the nodes that were to be kept, (k, k).
    """

    between_parents: FloatArray
    own: FloatArray
    kept: FloatArray


def sweep(nodes: Nodes, keep: IntArray | None = None, mixing: Mixing = Mixing.EXPECTED) -> Swept:
    """Find F of all nodes.

    Parameters
    ----------
    keep
        Nodes whose kinship with each other is wanted as well, (k,).
    mixing
        With an extreme the figures are bounds: no assignment of sires goes beyond them.

    Raises
    ------
    TooManyBreeders
        More than `MOST_IN_TABLE` animals breed at the same time.
    """
    kept = np.empty(0, dtype=np.int64) if keep is None else keep
    stays = np.zeros(len(nodes), dtype=np.bool_)
    stays[kept] = True
    plan = schedule(nodes, stays)
    if plan.slots > MOST_IN_TABLE:
        raise TooManyBreeders(plan.slots, MOST_IN_TABLE)
    table = _SlotKinship(nodes, plan.slots, mixing)
    for move in plan.moves:
        table.read(move.read)
        table.enter(move.enter)
        table.leave(move.leave)
    at = table.slot[kept]
    return Swept(table.between[:-1], table.own[:-1], table.kinship[np.ix_(at, at)])


class _SlotKinship:
    """Kinship among the nodes in use, each in a slot that is given on after its last pup.

    The last slot stands for everybody unknown and holds zeros.
    """

    def __init__(self, nodes: Nodes, slots: int, mixing: Mixing) -> None:
        self.nodes, self.mixing = nodes, mixing
        self.kinship = np.zeros((slots + 1, slots + 1))
        self.free = np.arange(slots)
        self.slot = np.full(len(nodes) + 1, slots, dtype=np.int64)
        self.between = np.zeros(len(nodes) + 1)
        self.own = np.zeros(len(nodes) + 1)
        self.own[-1] = 0.5
        self.all_animals = nodes.animals == len(nodes)

    def read(self, pups: IntArray) -> None:
        """Read the kinship between the parents of nodes, and from it their own."""
        first, second = self.nodes.first[pups], self.nodes.second[pups]
        between = self.kinship[self.slot[first], self.slot[second]]
        self.between[pups] = between
        self.own[pups] = 0.5 + 0.5 * between
        if not self.all_animals:
            self._read_others(pups, first, second)

    def _read_others(self, pups: IntArray, first: IntArray, second: IntArray) -> None:
        """Correct the own kinship of doubtful sires and of related founders."""
        doubtful = self.nodes.is_doubtful_sire[pups]
        mixed = self._mix(pups[doubtful], self.own[first[doubtful]], self.own[second[doubtful]])
        self.own[pups[doubtful]] = mixed
        related = pups[~np.isnan(self.nodes.given_own[pups])]
        self.own[related] = self.nodes.given_own[related]
        self.between[related] = 2 * self.own[related] - 1

    def enter(self, newcomers: IntArray) -> None:
        """Add nodes: their kinship with all in the table, with each other and with themselves."""
        if not newcomers.size:
            return
        first = self.slot[self.nodes.first[newcomers]]
        second = self.slot[self.nodes.second[newcomers]]
        rows = self._mix(newcomers, self.kinship[first], self.kinship[second])
        among = self._mix(newcomers, rows.T[first], rows.T[second])
        if self.mixing is not Mixing.EXPECTED:
            tighter = np.maximum if self.mixing is Mixing.LEAST else np.minimum
            among = tighter(among, among.T)
        np.fill_diagonal(among, self.own[newcomers])
        slots, self.free = self.free[: newcomers.size], self.free[newcomers.size :]
        self.slot[newcomers] = slots
        rows[:, slots] = among
        self.kinship[slots] = rows
        begin = 0
        # Columns side by side are written many times faster than columns here and there.
        for run in np.split(slots, np.flatnonzero(np.diff(slots) > 1) + 1):
            self.kinship[:, run[0] : run[-1] + 1] = rows[begin : begin + run.size].T
            begin += run.size

    def leave(self, gone: IntArray) -> None:
        """Give on the slots of those that have no more pups, the lowest first."""
        if gone.size:
            self.free = np.sort(np.concatenate((self.slot[gone], self.free)))

    def _mix(self, takers: IntArray, first: FloatArray, second: FloatArray) -> FloatArray:
        """What nodes take of the values of their parents, (k,) or (k, m)."""
        if self.all_animals:
            first += second
            first *= 0.5
            return first
        shape = (-1, *(1,) * (first.ndim - 1))
        mixed = first * self.nodes.first_share[takers].reshape(shape)
        mixed += second * self.nodes.second_share[takers].reshape(shape)
        if self.mixing is not Mixing.EXPECTED:
            extreme = np.minimum if self.mixing is Mixing.LEAST else np.maximum
            doubtful = self.nodes.is_doubtful_sire[takers] & (self.nodes.second_share[takers] > 0)
            mixed[doubtful] = extreme(first[doubtful], second[doubtful])
        return mixed
