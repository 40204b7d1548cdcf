"""Interim inbreeding."""

import numpy as np

from colony.pedigree.graph import IntArray, Pedigree
from colony.pedigree.kinship import FloatArray, _table


def inbreeding(p: Pedigree, of: IntArray | None = None) -> FloatArray:
    """F of all."""
    n = len(p.tags)
    return np.asarray(2 * np.diagonal(_table(p))[:n] - 1)
