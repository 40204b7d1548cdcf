"""Inbreeding of all animals of a pedigree, or of some.

F of an animal is the kinship of its parents (Wright 1922). Full sibs share it. Small
pedigrees are done by the table of their parents (`table`), larger ones a level at a time by
columns of the sires (the indirect method of Colleau 2002, ordered by sires as by Sargolzaei,
Iwaisaki & Colleau 2005, J. Anim. Breed. Genet. 122:325-331).
"""

import numpy as np

from colony.pedigree.ancestry import Ancestry, ancestry
from colony.pedigree.columns import climbs, segregation_of, times
from colony.pedigree.graph import UNKNOWN, FloatArray, IntArray, Pedigree
from colony.pedigree.table import SELF_OF_UNKNOWN, kinship_table

TABLE_AT_MOST = 2500
"""Nodes up to which the table is the faster way; measured, see docs/mathematics.md."""

VECTORS = 256
"""Columns done at once: what a processor's cache holds."""


def inbreeding(pedigree: Pedigree, of: IntArray | None = None) -> FloatArray:
    """Expected inbreeding coefficients.

    Parameters
    ----------
    of
        Positions of the animals asked for; None means all.

    Returns
    -------
    FloatArray
        F of each animal asked for, in their order; 0 where a parent is unknown.
    """
    asked = np.arange(len(pedigree)) if of is None else np.asarray(of, dtype=np.int64)
    line = ancestry(pedigree, asked, whole=False)
    dam, sire = line.row[pedigree.dam[asked]], line.row[pedigree.father[asked]]
    known = (pedigree.dam[asked] != UNKNOWN) & (pedigree.father[asked] != UNKNOWN)
    found = np.zeros(len(asked))
    if not known.any():
        return found
    pairs, back = np.unique(np.stack([dam[known], sire[known]]), axis=1, return_inverse=True)
    found[known] = _pair_kinships(line, pairs)[back.ravel()]
    return found


def segregation(line: Ancestry) -> FloatArray:
    """D of each node of an ancestry: the part of its kinship with itself that is new; shape (m,)."""
    parents = line.parents_only()
    if len(parents) > TABLE_AT_MOST:
        return _Sweep(line, np.zeros((2, 0), dtype=np.int64)).run().segregation
    table = kinship_table(parents)
    own = np.diagonal(table)
    fresh = segregation_of(line, own, 0, len(line))
    for at, mixture in line.mixtures.items():
        among = table[np.ix_(mixture.sires, mixture.sires)]
        fresh[at] = own[at] - mixture.shares @ among @ mixture.shares
    return fresh


def _pair_kinships(line: Ancestry, pairs: IntArray) -> FloatArray:
    """Kinship of each pair of rows, shape (2, p) -> (p,)."""
    if len(line) <= TABLE_AT_MOST:
        return np.asarray(kinship_table(line)[pairs[0], pairs[1]])
    return _Sweep(line, pairs).run().kinships


class _Sweep:
    """One pass from the oldest level to the youngest; each level needs only those before it."""

    def __init__(self, line: Ancestry, pairs: IntArray) -> None:
        self.line, self.pairs = line, pairs
        self.own, self.segregation = np.zeros(len(line)), np.zeros(len(line))
        self.kinships = np.zeros(pairs.shape[1])
        self.ways = climbs(line)
        self.passes_on = line.is_parent()
        self.level_of_pair = np.searchsorted(line.starts, pairs.max(axis=0), side="right") - 1

    def run(self) -> "_Sweep":
        """Fill `own`, `segregation` and `kinships`."""
        for level, (first, end) in enumerate(self.line.levels()):
            self._level(level, first, end)
            mine = np.flatnonzero(self.level_of_pair == level)
            self.kinships[mine] = self._kinships(self.pairs[:, mine], level + 1)
        return self

    def _level(self, level: int, first: int, end: int) -> None:
        line = self.line
        dam, sire = line.dam[first:end], line.sire[first:end]
        both = np.flatnonzero((dam != UNKNOWN) & (sire != UNKNOWN) & self.passes_on[first:end])
        own = np.full(end - first, SELF_OF_UNKNOWN)
        pairs, back = np.unique(np.stack([dam[both], sire[both]]), axis=1, return_inverse=True)
        own[both] += 0.5 * self._kinships(pairs, level)[back.ravel()]
        self.segregation[first:end] = segregation_of(line, self.own, first, end)
        for at, mixture in line.mixtures_between(first, end):
            own[at - first], self.segregation[at] = self._mixture(
                mixture.sires, mixture.shares, level
            )
        self.own[first:end] = own

    def _mixture(self, sires: IntArray, shares: FloatArray, level: int) -> tuple[float, float]:
        """Kinship of an unknown sire with himself, and what of it is not passed down."""
        known = sires != UNKNOWN
        own = shares[known] @ self.own[sires[known]] + SELF_OF_UNKNOWN * shares[~known].sum()
        men, weights = sires[known], shares[known]
        every = np.stack(np.meshgrid(men, men)).reshape(2, -1)
        passed = np.outer(weights, weights).ravel() @ self._kinships(every, level)
        return float(own), float(own - passed)

    def _kinships(self, pairs: IntArray, levels: int) -> FloatArray:
        """Kinship of pairs whose rows all stand in the first `levels` levels."""
        found = np.zeros(pairs.shape[1])
        if not len(found):
            return found
        few = int(len(np.unique(pairs[0])) > len(np.unique(pairs[1])))
        columns, column = np.unique(pairs[few], return_inverse=True)
        part = self.line.first_levels(levels)
        for start in range(0, len(columns), VECTORS):
            some = columns[start : start + VECTORS]
            vectors = np.zeros((len(part), len(some)))
            vectors[some, np.arange(len(some))] = 1.0
            times(part, self.ways[:levels], self.segregation[: len(part)], vectors)
            mine = np.flatnonzero((column >= start) & (column < start + len(some)))
            found[mine] = vectors[pairs[1 - few][mine], column[mine] - start]
        return found
