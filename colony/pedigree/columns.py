"""Kinship of many with a few, without the table of everybody with everybody.

With K = T D T' (T: what each inherits from whom, D: what segregates anew; Henderson 1976,
Biometrics 32:69-83) a column of K times a vector is two sweeps over the pedigree: up, from
pups to parents, and down again (Colleau 2002, Genet. Sel. Evol. 34:409-421). A level of the
pedigree is done at a time, for all vectors at once.
"""

from dataclasses import dataclass

import numpy as np

from colony.pedigree.ancestry import Ancestry
from colony.pedigree.graph import UNKNOWN, FloatArray, IntArray
from colony.pedigree.table import SELF_OF_UNKNOWN


@dataclass(frozen=True)
class Climb:
    """How the nodes of one level pass a vector up to their parents.

    `child` and `share` are sorted by `parent`, and `begins` says where each parent begins.
    """

    child: IntArray
    share: FloatArray
    parents: IntArray
    begins: IntArray


def climbs(line: Ancestry) -> list[Climb]:
    """The way up from each level."""
    return [_climb(line, first, end) for first, end in line.levels()]


def times(
    line: Ancestry, ways: list[Climb], segregation: FloatArray, vectors: FloatArray
) -> FloatArray:
    """Kinship of all nodes times some vectors.

    Parameters
    ----------
    ways
        What `climbs` gave.
    segregation
        D, from `segregation_of`; shape (m,). Only the levels it covers are looked at.
    vectors
        Shape (m, k); overwritten.

    Returns
    -------
    FloatArray
        K @ vectors, shape (m, k).
    """
    bounds = list(line.levels())
    for climb in reversed(ways):
        if len(climb.child):
            passed = vectors[climb.child] * climb.share[:, None]
            vectors[climb.parents] += np.add.reduceat(passed, climb.begins, axis=0)
    vectors *= segregation[:, None]
    for first, end in bounds[1:]:
        _descend(line, vectors, first, end)
    return vectors


def segregation_of(line: Ancestry, own: FloatArray, first: int, end: int) -> FloatArray:
    """D of one level, given the kinship `own` of each node with itself in the levels before.

    For an animal ``1/2 - (K_dd + K_ss) / 4`` with an unknown parent counting 0 (Quaas 1976,
    Biometrics 32:949-953); mixtures are left 0, their callers know their sires' kinship.
    """
    dam, sire = line.dam[first:end], line.sire[first:end]
    of_dam = np.where(dam == UNKNOWN, 0.0, own[dam])
    of_sire = np.where(sire == UNKNOWN, 0.0, own[sire])
    return np.asarray(SELF_OF_UNKNOWN - 0.25 * (of_dam + of_sire))


def _descend(line: Ancestry, vectors: FloatArray, first: int, end: int) -> None:
    for parents in (line.dam[first:end], line.sire[first:end]):
        known = np.flatnonzero(parents != UNKNOWN)
        vectors[first + known] += 0.5 * vectors[parents[known]]
    for at, mixture in line.mixtures_between(first, end):
        known = mixture.sires != UNKNOWN
        vectors[at] += mixture.shares[known] @ vectors[mixture.sires[known]]


def _climb(line: Ancestry, first: int, end: int) -> Climb:
    rows = np.arange(first, end)
    child = [rows, rows]
    parent = [line.dam[first:end], line.sire[first:end]]
    share = [np.full(end - first, 0.5)] * 2
    for at, mixture in line.mixtures_between(first, end):
        child.append(np.full(len(mixture.sires), at))
        parent.append(mixture.sires)
        share.append(mixture.shares)
    children, parents, shares = (np.concatenate(part) for part in (child, parent, share))
    known = np.flatnonzero(parents != UNKNOWN)
    known = known[np.argsort(parents[known], kind="stable")]
    unique, begins = np.unique(parents[known], return_index=True)
    return Climb(children[known], shares[known], unique, begins)
