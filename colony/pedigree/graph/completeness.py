"""How much of its pedigree is known of an animal."""

import numpy as np

from colony.pedigree.graph.graph import Pedigree
from colony.pedigree.graph.nodes import FloatArray


def generation_equivalents(pedigree: Pedigree) -> FloatArray:
    """Complete generation equivalents of every animal, (n,).

    The sum over all known ancestors of 1/2 to the power of their generation (Maignel, Boichard &
    Verrier 1996, Genetic variability of French dairy breeds estimated from pedigree information,
    Interbull Bull. 14:49-54). A possible sire counts with its share, somebody unknown not at all.
    """
    nodes = pedigree.nodes
    found = np.zeros(len(nodes) + 1)
    # A parent counts 1 + its own ancestors; a doubtful sire is no parent but passes theirs on.
    parental = np.zeros(len(nodes) + 1)
    for batch in nodes.by_step:
        first, second = nodes.first[batch], nodes.second[batch]
        found[batch] = parental[first] * nodes.first_share[batch]
        found[batch] += parental[second] * nodes.second_share[batch]
        parental[batch] = found[batch] + (batch < nodes.animals)
    return found[: len(pedigree)]
