"""Interim completeness."""

import numpy as np

from colony.pedigree.graph import Pedigree
from colony.pedigree.kinship import FloatArray


def generation_equivalents(p: Pedigree) -> FloatArray:
    """Complete generation equivalents."""
    return np.zeros(len(p.tags))
