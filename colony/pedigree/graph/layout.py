"""Lay out a pedigree as nodes: animals, doubtful sires, what related founders have in common."""

from collections.abc import Sequence

import numpy as np

from colony.pedigree.doubt.doubts import UNKNOWN, Doubt, FounderKinship
from colony.pedigree.graph.nodes import IntArray, Nodes


def build_nodes(
    dam: IntArray,
    sire: IntArray,
    doubts: Sequence[Doubt],
    related: Sequence[FounderKinship] = (),
) -> Nodes:
    """Lay out animals, doubtful sires and related founders as nodes.

    Parameters
    ----------
    dam, sire
        Positions of the parents, (n,), -1 unknown; a pup in doubt has -1 for its sire.
    """
    drawn = _Drawn(dam.copy(), sire.copy())
    for doubt in doubts:
        for pups in [(pup,) for pup in doubt.pups] if doubt.pups_may_differ else [doubt.pups]:
            drawn.doubt(pups, doubt.possible)
    for group in related:
        drawn.relate(group)
    return drawn.nodes()


class _Drawn:
    """Nodes while they are laid out."""

    def __init__(self, dam: IntArray, sire: IntArray) -> None:
        self.first, self.second = dam, sire
        self.extra: list[tuple[int, int, float, float]] = []
        self.choices: list[tuple[int, tuple[tuple[int, float], ...]]] = []
        self.own: dict[int, float] = {}

    def _add(self, first: int, second: int, first_share: float, second_share: float) -> int:
        self.extra.append((first, second, first_share, second_share))
        return len(self.first) + len(self.extra) - 1

    def doubt(self, pups: Sequence[int], possible: tuple[tuple[int, float], ...]) -> None:
        """Give pups a doubtful sire; where only one is possible it is no doubt."""
        (node, weight), *rest = possible
        if not rest and node == UNKNOWN:
            node = self._add(UNKNOWN, UNKNOWN, 1.0, 0.0)
        for sire, share in rest:
            both = weight + share
            node, weight = self._add(node, sire, weight / both, share / both), both
        self.second[list(pups)] = node
        if node >= len(self.first):
            self.choices.append((node, possible))

    def relate(self, group: FounderKinship) -> None:
        """Hang founders on what they have in common."""
        common = self._add(UNKNOWN, UNKNOWN, 1.0, 0.0)
        self.own[common] = group.kinship
        for founder in group.founders:
            self.first[founder] = common
            self.own[founder] = (1 + group.inbreeding) / 2

    def nodes(self) -> Nodes:
        """All of them as arrays."""
        extra = np.array(self.extra, dtype=np.float64).reshape(-1, 4)
        size = len(self.first) + len(extra)
        first_share, second_share = np.full(size, 0.5), np.full(size, 0.5)
        first_share[len(self.first) :], second_share[len(self.first) :] = extra[:, 2], extra[:, 3]
        given_own = np.full(size, np.nan)
        for node, own in self.own.items():
            given_own[node] = own
            first_share[node], second_share[node] = 1.0, 0.0
        return Nodes(
            animals=len(self.first),
            first=np.concatenate((self.first, extra[:, 0].astype(np.int64))),
            second=np.concatenate((self.second, extra[:, 1].astype(np.int64))),
            first_share=first_share,
            second_share=second_share,
            given_own=given_own,
            choices=tuple(self.choices),
        )
