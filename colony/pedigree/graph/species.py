"""What part of an animal comes from which species."""

import numpy as np

from colony.pedigree.graph.descent import passed_down
from colony.pedigree.graph.graph import Pedigree
from colony.pedigree.graph.nodes import FloatArray, IntArray


def species_shares(pedigree: Pedigree, species: IntArray, kinds: int) -> FloatArray:
    """Part of each animal that is of each species by descent, (n, kinds).

    Half from each parent, a sire in doubt with his shares (from memory, the usual reckoning of
    crosses). What comes from an unknown parent is of no species, so that a row sums to less than
    1 by just that part.

    Parameters
    ----------
    species
        Number of the species that each animal is recorded as, (n,), 0 to `kinds` - 1; -1 for a
        hybrid, which is reckoned from its parents. A recorded species holds, whatever the
        parents are.
    """
    nodes = pedigree.nodes
    pure = np.zeros(len(nodes), dtype=np.bool_)
    pure[: len(pedigree)] = species >= 0
    given = np.zeros((len(nodes), kinds))
    given[np.flatnonzero(pure), species[species >= 0]] = 1.0
    return passed_down(nodes, given, cut=pure)[: len(pedigree)]
