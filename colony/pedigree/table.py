"""Kinship of everybody with everybody, for a few thousand animals at most.

The tabular method (Emik & Terrill 1949, J. Hered. 40:51-55), a level of the pedigree at a
time: the row of a pup is the mean of its parents' rows, and its kinship with itself is
``(1 + F) / 2`` with F the kinship of its parents (Wright 1922, Am. Nat. 56:330-338).
"""

from collections.abc import Callable

import numpy as np

from colony.pedigree.ancestry import Ancestry
from colony.pedigree.graph import UNKNOWN, FloatArray

Mean = Callable[[FloatArray, FloatArray], FloatArray]
"""What an unknown sire's kinship is, of those of his possible selves (k, m) and their shares (k,)."""

SELF_OF_UNKNOWN = 0.5
"""Kinship with itself of an unrelated, non-inbred animal."""


def expected(kinships: FloatArray, shares: FloatArray) -> FloatArray:
    """The mean over the possible sires, weighted by their shares."""
    return np.asarray(shares @ kinships)


def least(kinships: FloatArray, _shares: FloatArray) -> FloatArray:
    """The least over the possible sires, entry by entry."""
    return np.asarray(kinships.min(axis=0))


def greatest(kinships: FloatArray, _shares: FloatArray) -> FloatArray:
    """The greatest over the possible sires, entry by entry."""
    return np.asarray(kinships.max(axis=0))


def kinship_table(line: Ancestry, mean: Mean = expected) -> FloatArray:
    """Kinship of all m nodes with each other, shape (m + 1, m + 1); the last row is nobody's.

    With `least` or `greatest` in place of `expected` every entry is a bound over the
    possible sires: each entry never falls when an earlier one rises.
    """
    m = len(line)
    table = np.zeros((m + 1, m + 1))
    for first, end in line.levels():
        dam, sire = line.dam[first:end], line.sire[first:end]
        rows = 0.5 * (table[dam, : first + 1] + table[sire, : first + 1])
        rows[:, first] = 0.0
        own = 0.5 + 0.5 * table[dam, sire]
        for at, mixture in line.mixtures_between(first, end):
            above = table[mixture.sires, :first]
            rows[at - first, :first] = mean(above, mixture.shares)
            selves = np.where(
                mixture.sires == UNKNOWN, SELF_OF_UNKNOWN, table[mixture.sires, mixture.sires]
            )
            own[at - first] = mean(selves[:, None], mixture.shares)[0]
        table[first:end, :first] = rows[:, :first]
        table[:first, first:end] = rows[:, :first].T
        among = _among(line, rows, (first, end), mean)
        np.fill_diagonal(among, own)
        table[first:end, first:end] = among
    return table


def _among(line: Ancestry, rows: FloatArray, level: tuple[int, int], mean: Mean) -> FloatArray:
    """Kinship of the nodes of one level with each other, from their rows."""
    first, end = level
    dam = np.where(line.dam[first:end] == UNKNOWN, first, line.dam[first:end])
    sire = np.where(line.sire[first:end] == UNKNOWN, first, line.sire[first:end])
    among = 0.5 * (rows[:, dam] + rows[:, sire])
    for at, mixture in line.mixtures_between(first, end):
        above = np.where(mixture.sires == UNKNOWN, first, mixture.sires)
        among[:, at - first] = mean(rows[:, above].T, mixture.shares)
    return 0.5 * (among + among.T)  # equal but for bounds, of which either is one
