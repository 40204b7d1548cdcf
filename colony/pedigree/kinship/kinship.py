"""Kinship (coancestry): the chance that a gene of one and a gene of the other are the same by descent."""

import numpy as np

from colony.pedigree.doubt.doubts import UNKNOWN
from colony.pedigree.graph.above import above
from colony.pedigree.graph.descent import mendelian_parts, passed_down, traced_up
from colony.pedigree.graph.graph import Pedigree
from colony.pedigree.graph.nodes import FloatArray, IntArray, Nodes
from colony.pedigree.kinship.sweep import sweep

FEW = 8
"""So many times fewer columns than rows, and tracing each is quicker than one table of all."""

AT_ONCE = 256
"""Columns that are traced together: a large herd fits in memory as well."""


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
    part = above(pedigree.nodes, np.concatenate((rows, columns)))
    find = _with_few if len(columns) * FEW <= len(rows) else _from_table
    return find(part.nodes, part.place[rows], part.place[columns])


def _with_few(nodes: Nodes, rows: IntArray, columns: IntArray) -> FloatArray:
    """Kinship with each of a few, without a table."""
    parts = mendelian_parts(nodes)
    found = np.empty((len(rows), len(columns)))
    for begin in range(0, len(columns), AT_ONCE):
        some = columns[begin : begin + AT_ONCE]
        spread = np.zeros((len(some), len(nodes)))
        spread[np.arange(len(some)), some] = 1.0
        found[:, begin : begin + AT_ONCE] = _indirect(nodes, parts, spread)[rows]
    return found


def _indirect(nodes: Nodes, parts: FloatArray, spread: FloatArray) -> FloatArray:
    """Kinship of each node with m mixtures of nodes, (N, m); `spread` is what each is made of, (m, N).

    `parts` are the Mendelian parts of the nodes, (N,). What a mixture takes of each ancestor is
    traced up, weighted with the part of the ancestor, and passed down again (Colleau 2002, An
    indirect approach to the extensive calculation of relationship coefficients, Genet. Sel.
    Evol. 34:409-421).
    """
    taken = np.stack([traced_up(nodes, weights) * parts for weights in spread], axis=1)
    return passed_down(nodes, taken)


def _from_table(nodes: Nodes, rows: IntArray, columns: IntArray) -> FloatArray:
    """Kinship where every node is asked for or an ancestor of one that is.

    An animal of `rows` without pups that is no column is the mean of its parents to all columns,
    and need not be in the table.
    """
    needed = nodes.are_parents.copy()
    needed[columns] = True
    derived = ~needed[rows]
    parents = nodes.first[rows[derived]], nodes.second[rows[derived]]
    kept = np.unique(np.concatenate((columns, rows[~derived], *parents)))
    kept = kept[kept != UNKNOWN]
    table = np.pad(sweep(nodes, kept).kept, ((0, 1), (0, 0)))
    place = np.full(len(nodes) + 1, len(kept))
    place[kept] = np.arange(len(kept))
    found = table[:, place[columns]]
    mean = nodes.first_share[rows, None] * found[place[nodes.first[rows]]]
    mean += nodes.second_share[rows, None] * found[place[nodes.second[rows]]]
    return np.asarray(np.where(derived[:, None], mean, found[place[rows]]))


def mean_kinship(pedigree: Pedigree, living: IntArray) -> FloatArray:
    """Kinship of each living animal averaged over the living, itself included, (k,).

    Ballou & Lacy 1995, Identifying genetically important individuals for management of genetic
    variation in pedigreed populations.
    """
    return weighted_kinship(pedigree, living, np.ones(len(living)))


def weighted_kinship(pedigree: Pedigree, living: IntArray, weights: FloatArray) -> FloatArray:
    """Kinship of each living animal averaged over the living with some weights, (k,)."""
    part = above(pedigree.nodes, living)
    here = part.place[living]
    colony = _mixture(part.nodes, here, weights)
    parts = mendelian_parts(part.nodes)
    return np.asarray(_indirect(part.nodes, parts, colony[None])[here, 0])


def kinship_and_mean(
    pedigree: Pedigree, of: IntArray, asking: int, living: IntArray
) -> tuple[FloatArray, FloatArray]:
    """Kinship of some animals with the one asking, (k,), and with the living on average, (k,)."""
    part = above(pedigree.nodes, np.concatenate((of, living, [asking])))
    nodes, place = part.nodes, part.place
    alone = _mixture(nodes, place[[asking]], np.ones(1))
    colony = _mixture(nodes, place[living], np.ones(len(living)))
    both = np.stack((alone, colony))
    found = _indirect(nodes, mendelian_parts(nodes), both)[place[of]]
    return found[:, 0], found[:, 1]


def _mixture(nodes: Nodes, of: IntArray, weights: FloatArray) -> FloatArray:
    spread = np.zeros(len(nodes))
    np.add.at(spread, of, weights / weights.sum())
    return spread
