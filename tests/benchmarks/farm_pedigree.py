"""An invented farm's pedigree for the benchmark: litters of 2 to 7, one pup in ten kept."""

import numpy as np

from colony.pedigree.graph.graph import IntArray, Pedigree

SEASONS_OF_BREEDING = 3


def farm_parents(animals: int, *, seasons: int, seed: int) -> tuple[IntArray, IntArray]:
    """Dam and sire of each animal, (n,), -1 for the founders, in the order of birth.

    Kept animals breed from the season after their birth for three seasons, so that
    generations overlap; every second animal is a female.
    """
    chance = np.random.default_rng(seed)
    a_season = animals // (seasons + 1)
    dam = np.full(animals, -1, dtype=np.int64)
    sire = dam.copy()
    breeders = [np.arange(a_season // 10)]
    born = a_season // 10
    while born < animals:
        alive = np.concatenate(breeders[-SEASONS_OF_BREEDING:])
        until = min(animals, born + a_season)
        sizes = chance.integers(2, 8, size=(until - born) // 2 + 1)
        litter = np.repeat(np.arange(sizes.size), sizes)[: until - born]
        dam[born:until] = chance.choice(alive[alive % 2 == 0], sizes.size)[litter]
        sire[born:until] = chance.choice(alive[alive % 2 == 1], sizes.size)[litter]
        young = np.arange(born, until)
        breeders.append(chance.choice(young, max(4, young.size // 10), replace=False))
        born = until
    return dam, sire


def farm(animals: int, *, seasons: int = 20, seed: int = 1) -> Pedigree:
    """The farm as a pedigree."""
    dam, sire = farm_parents(animals, seasons=seasons, seed=seed)
    return Pedigree(
        tags=tuple(f"R{at}" for at in range(animals)),
        dam=dam,
        sire=sire,
        sexes="FM" * (animals // 2) + "F" * (animals % 2),
    )
