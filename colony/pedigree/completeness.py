"""How much of a pedigree is known: complete generation equivalents.

Maignel, Boichard & Verrier 1996, Interbull Bull. 14:49-54: the sum over all known ancestors
of ``(1/2)^g``, g generations back; so a known parent counts a half of one more than its own.
"""

import numpy as np

from colony.pedigree.ancestry import Ancestry, ancestry
from colony.pedigree.graph import UNKNOWN, FloatArray, IntArray, Mixture, Pedigree


def generation_equivalents(pedigree: Pedigree, of: IntArray | None = None) -> FloatArray:
    """Complete generation equivalents of some animals (None: all), in their order.

    An unknown sire counts the mean over who he may be, and nothing for somebody unknown.
    """
    asked = np.arange(len(pedigree)) if of is None else np.asarray(of, dtype=np.int64)
    line = ancestry(pedigree, asked, whole=True)
    known = np.zeros(len(line) + 1)
    for first, end in line.levels():
        dam, sire = line.dam[first:end], line.sire[first:end]
        known[first:end] = 0.5 * (_adds(dam, known, line) + _adds(sire, known, line))
        for at, mixture in line.mixtures_between(first, end):
            known[at] = _of_mixture(mixture, known)
    return np.asarray(known[line.row[asked]])


def _adds(parent: IntArray, known: FloatArray, line: Ancestry) -> FloatArray:
    """One for a known parent and what is known of it; a mixture already counts the men in it."""
    is_mixture = np.isin(parent, line.mixture_rows)
    return np.where(parent == UNKNOWN, 0.0, known[parent] + ~is_mixture)


def _of_mixture(mixture: Mixture, known: FloatArray) -> float:
    return float(mixture.shares @ np.where(mixture.sires == UNKNOWN, 0.0, 1 + known[mixture.sires]))
