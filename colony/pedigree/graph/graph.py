"""The pedigree of a book: who bore and who sired whom, as far as it is known."""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import chain

import numpy as np

from colony.pedigree.doubt.doubts import UNKNOWN, Doubt, FounderKinship
from colony.pedigree.graph.layout import build_nodes
from colony.pedigree.graph.nodes import BoolArray, FloatArray, IntArray, Looped, Nodes
from colony.refusals.pedigree import FemaleSire, MaleDam, NotAFounder, OwnAncestor

__all__ = [
    "UNKNOWN",
    "BoolArray",
    "Doubt",
    "FloatArray",
    "FounderKinship",
    "IntArray",
    "Pedigree",
]


@dataclass(frozen=True, eq=False)
class Pedigree:
    """Parents of every animal, by position; the order of animals is free.

    Attributes
    ----------
    tags
        Tag of each animal, n of them.
    dam, sire
        Position of each parent, (n,), -1 unknown. The sire of a pup in doubt is -1.
    sexes
        F, M or U for each animal.
    doubts
        Uncertain paternity; a pup stands in one of them at most.
    founder_kinship
        Founders that are related; all others count as unrelated and not inbred.

    Raises
    ------
    OwnAncestor
        An animal descends from itself, be it through a possible sire only.
    MaleDam, FemaleSire
        A parent has the wrong sex.
    NotAFounder
        `founder_kinship` names an animal with a recorded parent, or one twice.
    """

    tags: tuple[str, ...]
    dam: IntArray
    sire: IntArray
    sexes: Sequence[str]
    doubts: tuple[Doubt, ...] = ()
    founder_kinship: tuple[FounderKinship, ...] = ()

    def __post_init__(self) -> None:
        _refuse_misfits(self)
        _refuse_wrong_sex(self)
        _refuse_related_pups(self)
        try:
            self.nodes.step  # noqa: B018 - computing it finds a loop
        except Looped as looped:
            loop = [self.tags[node] for node in looped.nodes if node < len(self)]
            raise OwnAncestor(loop) from None

    def __len__(self) -> int:
        return len(self.tags)

    @cached_property
    def nodes(self) -> Nodes:
        """Animals and doubtful sires as nodes of two parents each."""
        return build_nodes(self.dam, self.sire, self.doubts, self.founder_kinship)

    @cached_property
    def founders(self) -> IntArray:
        """Positions of the animals without a recorded parent, possible sires counted."""
        alone = (self.dam == UNKNOWN) & (self.sire == UNKNOWN)
        for doubt in self.doubts:
            alone[list(doubt.pups)] = False
        return np.flatnonzero(alone)


def _refuse_misfits(pedigree: Pedigree) -> None:
    n = len(pedigree)
    if not (pedigree.dam.shape == pedigree.sire.shape == (n,) and len(pedigree.sexes) == n):
        raise ValueError("tags, dam, sire and sexes of a pedigree have one entry for each animal")
    in_doubt = list(chain.from_iterable(doubt.pups for doubt in pedigree.doubts))
    possible = chain.from_iterable(doubt.sires for doubt in pedigree.doubts)
    named = np.concatenate((pedigree.dam, pedigree.sire, np.fromiter(possible, dtype=np.int64)))
    if named.size and not (named.min() >= UNKNOWN and named.max() < n):
        raise ValueError(f"a parent stands at no position from -1 to {n - 1}")
    if len(set(in_doubt)) < len(in_doubt) or (pedigree.sire[in_doubt] != UNKNOWN).any():
        raise ValueError("a pup in doubt stands in one doubt only and has no sire besides")


def _refuse_wrong_sex(pedigree: Pedigree) -> None:
    letters = "".join(pedigree.sexes).encode("ascii", "replace")
    sex = np.frombuffer(letters + b"U", dtype="S1")
    males = np.flatnonzero(sex[pedigree.dam] == b"M")
    if males.size:
        raise MaleDam([(pedigree.tags[pedigree.dam[pup]], pedigree.tags[pup]) for pup in males])
    females = np.flatnonzero(sex[pedigree.sire] == b"F")
    cases = [(int(pedigree.sire[pup]), int(pup)) for pup in females]
    cases += [
        (sire, pup)
        for doubt in pedigree.doubts
        for sire in doubt.sires
        for pup in doubt.pups[:1]
        if sex[sire] == b"F"
    ]
    if cases:
        raise FemaleSire([(pedigree.tags[sire], pedigree.tags[pup]) for sire, pup in cases])


def _refuse_related_pups(pedigree: Pedigree) -> None:
    related = [founder for group in pedigree.founder_kinship for founder in group.founders]
    founders = set(pedigree.founders.tolist()) if related else set()
    for at, founder in enumerate(related):
        if founder not in founders or founder in related[:at]:
            raise NotAFounder(pedigree.tags[founder])
