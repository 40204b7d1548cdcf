"""F, the inbreeding coefficient: kinship between the parents (Malecot 1948)."""

import numpy as np

from colony.pedigree.graph.above import above
from colony.pedigree.graph.graph import Pedigree
from colony.pedigree.graph.nodes import FloatArray, IntArray
from colony.pedigree.kinship.sweep import sweep


def inbreeding(pedigree: Pedigree, of: IntArray | None = None) -> FloatArray:
    """F of every animal, (n,), expected over the possible sires.

    Parameters
    ----------
    of
        Positions of the animals asked for; only they and their ancestors cost anything, and
        the others are NaN. None asks for all.

    Raises
    ------
    TooManyBreeders
        The breeders of one time do not fit in memory.

    Notes
    -----
    F of an animal is the kinship of its parents, so full sibs share it. Unknown parents are
    unrelated to everybody.
    """
    if of is None:
        return sweep(pedigree.nodes).between_parents[: len(pedigree)]
    part = above(pedigree.nodes, of)
    found = np.full(len(pedigree.nodes), np.nan)
    found[part.members] = sweep(part.nodes).between_parents
    return found[: len(pedigree)]
