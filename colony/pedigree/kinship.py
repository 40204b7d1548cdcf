"""Kinship (coancestry): the chance that a gene of one and a gene of the other are the same by descent."""

import numpy as np

from colony.pedigree.descent import mendelian_parts, passed_down, traced_up
from colony.pedigree.doubts import UNKNOWN
from colony.pedigree.graph import Pedigree
from colony.pedigree.nodes import BoolArray, FloatArray, IntArray, Nodes
from colony.pedigree.sweep import sweep


def kinship(pedigree: Pedigree, rows: IntArray, columns: IntArray) -> FloatArray:
    """Expected kinship of some animals with others, (k, m), without the table of all.

    The kinship of two animals is F of the pup that they would have; of an animal with itself
    it is (1 + F) / 2. Doubtful sires count with their shares.

    Raises
    ------
    TooManyBreeders
        The animals asked for and the breeders of one time do not fit in memory.
    """
    if len(rows) < len(columns):
        return kinship(pedigree, columns, rows).T
    nodes = pedigree.nodes
    derived = _without_pups(nodes, rows, columns)
    kept = np.unique(np.concatenate((columns, *_stand_ins(nodes, rows, derived))))
    kept = kept[kept != UNKNOWN]
    table = np.pad(sweep(nodes, kept, kept).kept, ((0, 1), (0, 0)))
    place = np.full(len(nodes) + 1, len(kept))
    place[kept] = np.arange(len(kept))
    found = table[:, place[columns]]
    first, second = place[nodes.first[rows]], place[nodes.second[rows]]
    mean = nodes.first_share[rows, None] * found[first]
    mean += nodes.second_share[rows, None] * found[second]
    return np.asarray(np.where(derived[:, None], mean, found[place[rows]]))


def _without_pups(nodes: Nodes, rows: IntArray, columns: IntArray) -> BoolArray:
    """Whether each of `rows` is no ancestor of anybody asked for, and no column itself, (k,).

    Such an animal is the mean of its parents to all columns, and need not be in the table.
    """
    asked = np.flatnonzero(nodes.ancestors_of(np.concatenate((rows, columns))))
    needed = nodes.parents_among(asked)
    needed[columns] = True
    return ~needed[rows]


def _stand_ins(nodes: Nodes, rows: IntArray, derived: BoolArray) -> tuple[IntArray, ...]:
    """The nodes whose kinship says that of `rows`: themselves, or else their parents."""
    return rows[~derived], nodes.first[rows[derived]], nodes.second[rows[derived]]


def mean_kinship(pedigree: Pedigree, living: IntArray) -> FloatArray:
    """Kinship of each living animal averaged over the living, itself included, (k,).

    Ballou & Lacy 1995, Identifying genetically important individuals for management of genetic
    variation in pedigreed populations. Found without a table of all pairs: what the living take
    of each ancestor is traced up, weighted with the Mendelian part of the ancestor, and passed
    down again (Colleau 2002, An indirect approach to the extensive calculation of relationship
    coefficients, Genet. Sel. Evol. 34:409-421).
    """
    nodes = pedigree.nodes
    weights = np.bincount(living, minlength=len(nodes)) / len(living)
    traced = traced_up(nodes, weights)
    return passed_down(nodes, traced * mendelian_parts(nodes, living))[living]
