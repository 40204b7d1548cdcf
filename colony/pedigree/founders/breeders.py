"""Who of the living would keep most of the founders' genes by breeding."""

from dataclasses import dataclass

import numpy as np

from colony.pedigree.graph.graph import Pedigree
from colony.pedigree.graph.nodes import FloatArray, IntArray
from colony.pedigree.kinship.kinship import weighted_kinship


@dataclass(frozen=True, eq=False)
class BreederValues:
    """Worth of each living animal to the diversity of the next generation, (k,).

    Attributes
    ----------
    mean_kinship
        Kinship with the living, itself included.
    value
        Average mean kinship less its own: above 0 its pups add gene diversity, below 0 they
        cost it (Ballou & Lacy 1995).
    rank
        1 for the most valuable; equal values share a rank.
    """

    mean_kinship: FloatArray
    value: FloatArray
    rank: IntArray


def breeder_values(
    pedigree: Pedigree, living: IntArray, reproductive_value: FloatArray | None = None
) -> BreederValues:
    """Rank the living, (k,), by mean kinship.

    Parameters
    ----------
    reproductive_value
        What is still expected of each, (k,), 0 for one too old to breed. With it the mean
        is the kinship value of Ballou & Lacy 1995, since kin that will leave no pups take
        no place. Without it all the living count alike.
    """
    weights = np.ones(len(living)) if reproductive_value is None else reproductive_value
    found = weighted_kinship(pedigree, living, weights)
    value = float(found @ weights / weights.sum()) - found
    ascending = np.sort(-np.round(value, 12))
    return BreederValues(found, value, 1 + np.searchsorted(ascending, -np.round(value, 12)))
