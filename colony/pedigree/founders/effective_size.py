"""Effective size: the ideal population that would lose diversity as fast."""

from dataclasses import dataclass

import numpy as np

from colony.pedigree.graph.nodes import FloatArray


def size_from_sexes(males: int, females: int) -> float:
    """Effective size of breeding males and females: 4 m f / (m + f).

    Wright 1931, Evolution in Mendelian populations, Genetics 16:97-159. It knows of unequal sexes
    and of nothing else.
    """
    return 4 * males * females / (males + females) if males + females else 0.0


@dataclass(frozen=True)
class RealisedSize:
    """Effective size from the increase of inbreeding.

    Attributes
    ----------
    animals
        Animals that could be used: with more than one known generation.
    increase
        Mean increase of inbreeding in a generation.
    size
        1 / (2 increase); None where nothing increased.
    standard_error
        Of the size; None with fewer than two animals or no size.
    """

    animals: int
    increase: float
    size: float | None
    standard_error: float | None


def size_from_inbreeding(inbreeding: FloatArray, generations: FloatArray) -> RealisedSize:
    """Effective size from the individual increase in inbreeding, 1 - (1 - F)^(1 / (t - 1)).

    Gutierrez, Cervantes & Goyache 2009, Improving the estimation of realized effective population
    sizes in farm animals, J. Anim. Breed. Genet. 126:327-332; after Gutierrez et al. 2008, Genet.
    Sel. Evol. 40:359-378.

    Parameters
    ----------
    inbreeding, generations
        F and complete generation equivalents t of some animals, (k,).
    """
    known = generations > 1
    rise = 1 - (1 - inbreeding[known]) ** (1 / (generations[known] - 1))
    increase = float(rise.mean()) if rise.size else 0.0
    if increase <= 0:
        return RealisedSize(int(rise.size), increase, None, None)
    size = 1 / (2 * increase)
    error = None
    if rise.size > 1:
        error = float(2 * size**2 * rise.std(ddof=1) / np.sqrt(rise.size))
    return RealisedSize(int(rise.size), increase, size, error)


def increase_between(before: float, after: float) -> float:
    """Increase of mean inbreeding from one generation to the next: (F' - F) / (1 - F).

    Falconer & Mackay, Introduction to Quantitative Genetics. The effective size is half of its
    inverse.
    """
    return (after - before) / (1 - before)
