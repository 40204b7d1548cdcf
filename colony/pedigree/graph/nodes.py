"""The pedigree as nodes of two parents each, doubtful sires among them, in the order of descent.

An animal takes half of each parent. A doubtful sire is a node of its own that takes a share of
each possible sire; three or more are folded two by two, which leaves every kinship the same.
Related founders hang whole on a node whose kinship with itself is theirs with each other.
"""

from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from colony.pedigree.doubt.doubts import UNKNOWN

IntArray = NDArray[np.int64]
FloatArray = NDArray[np.float64]
BoolArray = NDArray[np.bool_]

_UNSET = -2


class Looped(Exception):
    """Nodes descend from themselves; the pedigree, which knows their tags, refuses it in words."""

    def __init__(self, nodes: list[int]) -> None:
        super().__init__(nodes)
        self.nodes = nodes


@dataclass(frozen=True, eq=False)
class Nodes:
    """Animals first, then doubtful sires, then what related founders have in common.

    Attributes
    ----------
    animals
        How many of the nodes are animals, n of N.
    first, second
        Parents of each node, (N,), -1 unknown; dam and sire of an animal.
    first_share, second_share
        What the node takes of each, (N,).
    given_own
        Kinship with itself, (N,), of founders and of what they have in common; else NaN.
    choices
        Each doubtful sire: its node, and the possible sires with their shares.
    """

    animals: int
    first: IntArray
    second: IntArray
    first_share: FloatArray
    second_share: FloatArray
    given_own: FloatArray
    choices: tuple[tuple[int, tuple[tuple[int, float], ...]], ...]

    def __len__(self) -> int:
        return len(self.first)

    @cached_property
    def is_doubtful_sire(self) -> BoolArray:
        """Whether each node stands for a sire in doubt, or for some of the possible ones, (N,)."""
        return (np.arange(len(self)) >= self.animals) & np.isnan(self.given_own)

    @cached_property
    def step(self) -> IntArray:
        """Longest way from the founders to each node, (N,); `Looped` where there is none."""
        return _steps(self.first, self.second, self.are_parents)

    @cached_property
    def order(self) -> IntArray:
        """Nodes with parents before pups, (N,)."""
        small = self.step.astype(np.int16) if self.step.max(initial=0) < 2**15 else self.step
        return np.argsort(small, kind="stable")

    @cached_property
    def by_step(self) -> tuple[IntArray, ...]:
        """The nodes of each step, in order."""
        steps = np.arange(1, int(self.step.max(initial=0)) + 1)
        return tuple(np.split(self.order, np.searchsorted(self.step[self.order], steps)))

    def ancestors_of(self, asked: IntArray) -> BoolArray:
        """Whether each node is asked for or an ancestor of one that is, (N,)."""
        found = np.zeros(len(self) + 1, dtype=np.bool_)
        front = np.unique(asked)
        found[front] = True
        while front.size:
            parents = np.concatenate((self.first[front], self.second[front]))
            parents = np.unique(parents[~found[parents] & (parents != UNKNOWN)])
            found[parents] = True
            front = parents
        return found[:-1]

    @cached_property
    def are_parents(self) -> BoolArray:
        """Whether each node is a parent of another, (N,)."""
        found = np.zeros(len(self) + 1, dtype=np.bool_)
        found[self.first] = True
        found[self.second] = True
        return found[:-1]


def _steps(first: IntArray, second: IntArray, are_parents: BoolArray) -> IntArray:
    """Give every parent the round in which its own parents are done, then the others theirs."""
    step = np.full(len(first) + 1, _UNSET, dtype=np.int64)
    step[UNKNOWN] = -1
    waiting = np.flatnonzero(are_parents)
    parent, other_parent = first[waiting], second[waiting]
    at = 0
    while waiting.size:
        ready = (step[parent] != _UNSET) & (step[other_parent] != _UNSET)
        if not ready.any():
            raise Looped(_loop(waiting, first, second))
        step[waiting[ready]] = at
        waiting, parent, other_parent = waiting[~ready], parent[~ready], other_parent[~ready]
        at += 1
    others = np.flatnonzero(~are_parents)
    step[others] = 1 + np.maximum(step[first[others]], step[second[others]])
    return step[:-1]


def _loop(waiting: IntArray, first: IntArray, second: IntArray) -> list[int]:
    """Walk up from any node that waits, through parents that wait, until one comes back."""
    stuck = set(waiting.tolist())
    way: list[int] = []
    node = int(waiting[0])
    while node not in way:
        way.append(node)
        node = int(first[node]) if int(first[node]) in stuck else int(second[node])
    return way[way.index(node) :]
