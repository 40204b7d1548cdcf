"""Who holds what is left of each founder: what an animal carries that the others lack."""

from dataclasses import dataclass

import numpy as np

from colony.pedigree.graph.graph import Pedigree
from colony.pedigree.graph.nodes import FloatArray, IntArray
from colony.pedigree.graph.species import species_shares


@dataclass(frozen=True, eq=False)
class Holdings:
    """What some animals hold of what is left of each founder.

    Attributes
    ----------
    founders
        Positions of the founders of whom anything is left, (f,).
    parts
        Expected part of each animal's genes that is of each founder, (k, f).
    """

    founders: IntArray
    parts: FloatArray

    @property
    def held(self) -> FloatArray:
        """Each animal's part of all that is left of a founder, (k, f); a column sums to 1.

        An animal of 1/4 of a founder of whom 1/2 is left in all holds half: were it to die
        without young, half of that founder would be lost, as expected over the genes.
        """
        return np.asarray(self.parts / self.parts.sum(axis=0, keepdims=True))


def holdings(pedigree: Pedigree, living: IntArray) -> Holdings:
    """Trace what some living animals, (k,), hold of each founder.

    Half of an animal is of each parent, a sire in doubt by his shares (the expected
    contributions that Lacy 1989, Zoo Biol. 8:111-123, sums over the living).
    """
    founders = np.asarray(sorted(pedigree.founders.tolist()), dtype=np.int64)
    number = np.full(len(pedigree), -1, dtype=np.int64)
    number[founders] = np.arange(len(founders))
    parts = species_shares(pedigree, number, len(founders))[living]
    left = parts.sum(axis=0) > 0
    return Holdings(founders[left], parts[:, left])
