"""Why two animals are related: the paths through each common ancestor (Wright 1922)."""

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from colony.pedigree.doubt.doubts import UNKNOWN
from colony.pedigree.graph.above import above
from colony.pedigree.graph.graph import Pedigree
from colony.pedigree.graph.naming import node_names
from colony.pedigree.graph.nodes import FloatArray, Nodes
from colony.pedigree.kinship.sweep import sweep
from colony.pedigree.paths.shares import ancestor_shares

MOST_PATHS = 200
"""Paths that a person may still want to read; beyond that they are summed by ancestor."""


@dataclass(frozen=True)
class Path:
    """One path from one animal up to a common ancestor and down to the other.

    Attributes
    ----------
    ancestor
        Its name; of a litter's ONE unknown sire, what he may be.
    first, second
        Names from each of the two up to, and without, the ancestor; empty if it is the ancestor.
    adds
        What the path adds to the kinship: the shares taken along it times the ancestor's kinship
        with itself, 1/2^n (1 + F) / 2 for n certain steps.
    """

    ancestor: str
    first: tuple[str, ...]
    second: tuple[str, ...]
    adds: float


@dataclass(frozen=True)
class CommonAncestor:
    """All paths through one common ancestor: how many, and what they add together."""

    ancestor: str
    paths: int
    adds: float


@dataclass(frozen=True)
class Why:
    """Where a kinship comes from.

    Attributes
    ----------
    kinship
        Of the two: F of a pup of theirs. The parts sum to it.
    paths
        Every path, what adds most first; empty where they are too many to be read.
    ancestors
        The common ancestors, what adds most first.
    """

    kinship: float
    paths: tuple[Path, ...]
    ancestors: tuple[CommonAncestor, ...]


def why_inbred(pedigree: Pedigree, animal: int, most: int = MOST_PATHS) -> Why:
    """Explain the F of an animal by the paths between its parents."""
    nodes = pedigree.nodes
    return _why(pedigree, int(nodes.first[animal]), int(nodes.second[animal]), most)


def why_related(pedigree: Pedigree, first: int, second: int, most: int = MOST_PATHS) -> Why:
    """Explain the kinship of two different animals by the paths between them.

    Wright 1922, Coefficients of inbreeding and relationship, Am. Nat. 56:330-338. No animal but
    the common ancestor stands on both sides of a path. With doubtful sires the sum is the
    expected kinship.
    """
    return _why(pedigree, first, second, most)


def _why(pedigree: Pedigree, first: int, second: int, most: int) -> Why:
    if UNKNOWN in (first, second):
        return Why(0.0, (), ())
    part = above(pedigree.nodes, np.array([first, second]))
    names = node_names(pedigree)
    ways = _Ways(part.nodes, sweep(part.nodes).own, [names[node] for node in part.members])
    return ways.between(int(part.place[first]), int(part.place[second]), most)


@dataclass(frozen=True, eq=False)
class _Ways:
    nodes: Nodes
    own: FloatArray
    names: list[str]

    def between(self, first: int, second: int, most: int) -> Why:
        shares = ancestor_shares(self.nodes, self.own, first, second)
        common = np.flatnonzero(shares.paths)
        ancestors = [
            CommonAncestor(self.names[node], round(shares.paths[node]), float(shares.adds[node]))
            for node in common[np.argsort(-shares.adds[common], kind="stable")]
        ]
        few = shares.paths.sum() <= most
        paths = [self._shown(*way) for way in self._follow(first, second)] if few else []
        return Why(
            kinship=float(shares.adds.sum()),
            paths=tuple(sorted(paths, key=lambda path: -path.adds)),
            ancestors=tuple(ancestors),
        )

    def _follow(
        self, first: int, second: int
    ) -> Iterator[tuple[tuple[int, ...], tuple[int, ...], float]]:
        """All pairs of lineages that first meet in their last node, with the shares along them."""
        rank = np.empty(len(self.nodes), dtype=np.int64)
        rank[self.nodes.order] = np.arange(len(self.nodes))
        lineages = self._lineages()
        todo: list[tuple[tuple[int, ...], tuple[int, ...], float]] = [((first,), (second,), 1.0)]
        while todo:
            left, right, share = todo.pop()
            if left[-1] == right[-1]:
                yield left, right, share
            elif lineages[left[-1]] & lineages[right[-1]]:
                left_is_younger = rank[left[-1]] > rank[right[-1]]
                for parent, taken in self._parents(left[-1] if left_is_younger else right[-1]):
                    ways = ((*left, parent), right) if left_is_younger else (left, (*right, parent))
                    todo.append((*ways, share * taken))

    def _lineages(self) -> list[int]:
        """Each node and its ancestors as the bits of one number."""
        bits = [0] * len(self.nodes)
        for node in self.nodes.order.tolist():
            bits[node] = 1 << node
            for parent, _ in self._parents(node):
                bits[node] |= bits[parent]
        return bits

    def _parents(self, node: int) -> Iterator[tuple[int, float]]:
        nodes = self.nodes
        for parents, shares in (
            (nodes.first, nodes.first_share),
            (nodes.second, nodes.second_share),
        ):
            if parents[node] != UNKNOWN:
                yield int(parents[node]), float(shares[node])

    def _shown(self, left: tuple[int, ...], right: tuple[int, ...], share: float) -> Path:
        """A path by names, its two ways without their end.

        Nodes that only fold possible sires have no name.
        """
        first, second = (
            tuple(self.names[node] for node in way[:-1] if self.names[node])
            for way in (left, right)
        )
        return Path(self.names[left[-1]], first, second, share * float(self.own[left[-1]]))
