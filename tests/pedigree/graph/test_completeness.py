"""How much of a pedigree is known."""

import numpy as np
import pytest
from hypothesis import given, settings
from plain_pedigrees import at, family, pedigrees, worlds

from colony.pedigree.graph.completeness import generation_equivalents
from colony.pedigree.graph.graph import Pedigree


def test_complete_generations_count_one_each_and_half_known_ones_half() -> None:
    """Maignel et al. 1996: the sum of 1/2 to the power of the generation, over known ancestors."""
    pedigree = family({"A": ("D", "S"), "B": ("E", None), "X": ("A", "B")})
    found = generation_equivalents(pedigree)[at(pedigree, "D", "A", "B", "X")]
    assert found.tolist() == [0.0, 1.0, 0.5, 1.75]


def test_a_possible_sire_counts_with_its_share() -> None:
    """Somebody unknown adds nothing."""
    pedigree = family({"A": ("D", "S"), "X": ("D", None)}, X={"A": 0.6, "?": 0.4})
    found = generation_equivalents(pedigree)[at(pedigree, "X")]
    assert found == pytest.approx([0.5 + 0.5 * 0.6 * 2])


@settings(max_examples=50, deadline=None)
@given(pedigrees())
def test_it_is_the_mean_over_all_ways_to_settle_the_doubts(pedigree: Pedigree) -> None:
    """A stranger who fills in for an unknown sire is not a known ancestor."""
    n = len(pedigree)
    expected = sum(
        world.probability * known_ancestors(world.pedigree, n) for world in worlds(pedigree)
    )
    assert generation_equivalents(pedigree) == pytest.approx(expected)


def known_ancestors(
    pedigree: Pedigree, recorded: int
) -> np.ndarray[tuple[int], np.dtype[np.float64]]:
    """The definition, one ancestor at a time."""

    def of(one: int) -> float:
        known = [at for at in (pedigree.dam[one], pedigree.sire[one]) if 0 <= at < recorded]
        return sum(0.5 * (1 + of(int(at))) for at in known)

    return np.array([of(one) for one in range(recorded)])
