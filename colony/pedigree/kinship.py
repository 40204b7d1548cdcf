"""Kinship of some animals with others, without the table of everybody with everybody.

Kinship (coancestry) of two animals is the inbreeding of the pup the two would have
(Wright 1922); of an animal with itself ``(1 + F) / 2``.
"""

import numpy as np

from colony.pedigree.ancestry import ancestry
from colony.pedigree.columns import climbs, times
from colony.pedigree.graph import FloatArray, IntArray, Pedigree
from colony.pedigree.inbreeding import VECTORS, segregation


def kinship(pedigree: Pedigree, rows: IntArray, columns: IntArray) -> FloatArray:
    """Expected kinship of k animals with m others, shape (k, m)."""
    rows, columns = np.asarray(rows, dtype=np.int64), np.asarray(columns, dtype=np.int64)
    if len(rows) < len(columns):
        return kinship(pedigree, columns, rows).T
    line = ancestry(pedigree, np.concatenate([rows, columns]), whole=True)
    found = np.zeros((len(rows), len(columns)))
    ways, fresh = climbs(line), segregation(line)
    for start in range(0, len(columns), VECTORS):
        some = columns[start : start + VECTORS]
        vectors = np.zeros((len(line), len(some)))
        vectors[line.row[some], np.arange(len(some))] = 1.0
        found[:, start : start + len(some)] = times(line, ways, fresh, vectors)[line.row[rows]]
    return found


def mean_kinship(pedigree: Pedigree, living: IntArray) -> FloatArray:
    """Mean kinship of each of the living with all of them, itself included, shape (k,).

    Ballou & Lacy 1995, in Population Management for Survival and Recovery, 76-111.
    """
    living = np.asarray(living, dtype=np.int64)
    if not len(living):
        return np.zeros(0)
    line = ancestry(pedigree, living, whole=True)
    vector = np.bincount(line.row[living], minlength=len(line))[:, None] / len(living)
    return np.asarray(times(line, climbs(line), segregation(line), vector)[line.row[living], 0])
