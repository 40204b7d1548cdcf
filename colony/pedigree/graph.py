"""Interim: parents as positions (replaced by the pedigree room's own module)."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

IntArray = NDArray[np.int64]


@dataclass(frozen=True)
class Doubt:
    """Uncertain paternity of one litter, or of one animal."""

    pups: tuple[int, ...]
    sires: tuple[int, ...]
    shares: tuple[float, ...]
    pups_may_differ: bool = False


@dataclass(frozen=True)
class Pedigree:
    """Parents of each animal, -1 unknown; record order is free."""

    tags: tuple[str, ...]
    dam: IntArray
    sire: IntArray
    sexes: str
    doubts: tuple[Doubt, ...] = ()
