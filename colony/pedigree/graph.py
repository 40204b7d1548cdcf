"""The pedigree: who descends from whom, with the doubt that stands about a sire.

Animals are positions 0 to n-1 in any order: pups may stand before their parents. A sire in
doubt becomes a node of its own behind the animals, whose kinship to others is the mean of
its possible sires' weighted by their shares. A litter of one sire not known which has one
such node, so that its pups stay full sibs; where pups may differ each pup has one.
"""

from collections.abc import Sequence
from dataclasses import dataclass, field
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from colony.refusals.pedigree import FemaleSire, MaleDam, OwnAncestor

IntArray = NDArray[np.int64]
FloatArray = NDArray[np.float64]

UNKNOWN = -1


@dataclass(frozen=True)
class Doubt:
    """Possible sires of some pups, each with its share; -1 is somebody unknown.

    `pups_may_differ` says that each pup's sire is drawn by itself; otherwise all have one.
    """

    pups: tuple[int, ...]
    sires: tuple[int, ...]
    shares: tuple[float, ...]
    pups_may_differ: bool = False


@dataclass(frozen=True)
class Mixture:
    """One unknown sire: who he may be, and how likely (shape (k,), each)."""

    sires: IntArray
    shares: FloatArray


@dataclass(frozen=True)
class Pedigree:
    """Parents of n animals.

    Parameters
    ----------
    tags
        Name of each animal, for refusals.
    dam, sire
        Position of each parent, shape (n,); -1 where unknown or, for a sire, in doubt.
    sexes
        F, M or U of each animal, length n.
    doubts
        The pups whose sire is in doubt.

    Raises
    ------
    MaleDam, FemaleSire, OwnAncestor
    """

    tags: Sequence[str]
    dam: IntArray
    sire: IntArray
    sexes: str
    doubts: tuple[Doubt, ...] = ()
    father: IntArray = field(init=False, repr=False)
    mixtures: tuple[Mixture, ...] = field(init=False, repr=False)

    def __post_init__(self) -> None:
        father, mixtures = _fathers(self)
        object.__setattr__(self, "father", father)
        object.__setattr__(self, "mixtures", mixtures)
        _refuse_wrong_sexes(self)
        self.order  # noqa: B018 - ordering the parents is what finds a loop

    def __len__(self) -> int:
        return len(self.dam)

    @cached_property
    def order(self) -> "Order":
        """All who are parents or unknown sires, parents before pups."""
        return _order(self)


@dataclass(frozen=True)
class Order:
    """Parents and unknown sires (m nodes), parents before pups, in levels.

    `nodes` are positions (n and up: mixtures), sorted by level; `level` is of every position
    (-1: nobody's parent), `place` where a position stands in `nodes` (-1: not there).
    """

    nodes: IntArray
    level: IntArray
    place: IntArray


def _fathers(pedigree: Pedigree) -> tuple[IntArray, tuple[Mixture, ...]]:
    """The sire of each animal, or the node of its unknown sire."""
    father = np.array(pedigree.sire, dtype=np.int64)
    mixtures: list[Mixture] = []
    for doubt in pedigree.doubts:
        one = Mixture(
            np.array(doubt.sires, dtype=np.int64), np.array(doubt.shares, dtype=np.float64)
        )
        for pups in [[pup] for pup in doubt.pups] if doubt.pups_may_differ else [list(doubt.pups)]:
            father[pups] = len(father) + len(mixtures)
            mixtures.append(one)
    return father, tuple(mixtures)


def _refuse_wrong_sexes(pedigree: Pedigree) -> None:
    sexes = np.frombuffer(pedigree.sexes.encode("ascii"), dtype="S1")
    males, females = np.append(sexes == b"M", False), np.append(sexes == b"F", False)
    for pup in np.flatnonzero(males[pedigree.dam])[:1]:
        raise MaleDam(pedigree.tags[pedigree.dam[pup]], pedigree.tags[pup])
    for pup in np.flatnonzero(females[pedigree.sire])[:1]:
        raise FemaleSire(pedigree.tags[pedigree.sire[pup]], pedigree.tags[pup])
    for doubt in pedigree.doubts:
        for sire in doubt.sires:
            if females[sire]:
                raise FemaleSire(pedigree.tags[sire], pedigree.tags[doubt.pups[0]])


def _order(pedigree: Pedigree) -> Order:
    """Peel the parents off in levels, those whose own parents are all peeled first."""
    total = len(pedigree) + len(pedigree.mixtures)
    is_parent = np.zeros(total + 1, dtype=bool)
    is_parent[pedigree.dam] = is_parent[pedigree.father] = True
    for mixture in pedigree.mixtures:
        is_parent[mixture.sires] = True
    is_parent[-1] = False
    level = np.full(total + 1, UNKNOWN, dtype=np.int64)
    rest = np.flatnonzero(is_parent[:-1])
    waits = is_parent.copy()
    depth = 0
    while len(rest):
        held = _held_up(pedigree, rest, waits)
        if held.all():
            raise OwnAncestor([pedigree.tags[one] for one in _circle(pedigree, rest, waits)])
        level[rest[~held]] = depth
        waits[rest[~held]] = False
        rest, depth = rest[held], depth + 1
    nodes = np.flatnonzero(level[:-1] >= 0)
    nodes = nodes[np.argsort(level[nodes], kind="stable")]
    place = np.full(total + 1, UNKNOWN, dtype=np.int64)
    place[nodes] = np.arange(len(nodes))
    return Order(nodes, level[:-1], place)


def _held_up(pedigree: Pedigree, rest: IntArray, waits: NDArray[np.bool_]) -> NDArray[np.bool_]:
    """Who of the rest has a parent that still waits."""
    n = len(pedigree)
    animals = rest < n
    held = np.zeros(len(rest), dtype=bool)
    mothers, fathers = pedigree.dam[rest[animals]], pedigree.father[rest[animals]]
    held[animals] = waits[mothers] | waits[fathers]
    for at in np.flatnonzero(~animals):
        held[at] = waits[pedigree.mixtures[rest[at] - n].sires].any()
    return held


def _circle(pedigree: Pedigree, rest: IntArray, waits: NDArray[np.bool_]) -> list[int]:
    """Walk up among those who all wait for each other, until somebody comes twice."""
    n, walked = len(pedigree), [int(rest[0])]
    while True:
        here = walked[-1]
        parents = (
            pedigree.mixtures[here - n].sires
            if here >= n
            else np.array([pedigree.dam[here], pedigree.father[here]])
        )
        up = int(parents[waits[parents]][0])
        if up in walked:
            return [one for one in walked[walked.index(up) :] if one < n]
        walked.append(up)
