"""Effective size, from the sexes and from the increase of inbreeding."""

import numpy as np
import pytest

from colony.pedigree.founders.effective_size import (
    increase_between,
    size_from_inbreeding,
    size_from_sexes,
)


@pytest.mark.parametrize(
    ("males", "females", "size"), [(5, 5, 10), (1, 9, 3.6), (0, 4, 0), (0, 0, 0)]
)
def test_unequal_sexes_lower_the_effective_size(males: int, females: int, size: float) -> None:
    """Wright 1931: 4 m f / (m + f)."""
    assert size_from_sexes(males, females) == pytest.approx(size)


def test_an_ideal_population_gets_its_own_size_back() -> None:
    """F = 1 - (1 - 1/2N)^(t - 1) in generation t (Falconer & Mackay), here for N = 25."""
    generations = np.array([2.0, 3.0, 5.0, 10.0])
    found = size_from_inbreeding(1 - (1 - 1 / 50) ** (generations - 1), generations)
    assert found.size == pytest.approx(25)
    assert found.standard_error == pytest.approx(0, abs=1e-9)
    assert found.animals == 4


def test_animals_without_two_generations_say_nothing() -> None:
    """With no increase there is no size to name."""
    found = size_from_inbreeding(np.array([0.0, 0.0, 0.25]), np.array([0.5, 3.0, 1.0]))
    assert (found.animals, found.increase, found.size, found.standard_error) == (1, 0.0, None, None)


def test_the_standard_error_is_that_of_the_mean_increase_carried_over() -> None:
    """By the delta method: 2 N^2 times the error of the mean."""
    found = size_from_inbreeding(np.array([0.1, 0.2]), np.array([2.0, 2.0]))
    assert found.size == pytest.approx(1 / 0.3)
    assert found.standard_error == pytest.approx(2 / 0.09 * 0.05)


def test_increase_between_generations_is_of_what_was_left() -> None:
    """Full sib mating, generations 2 and 3: (0.375 - 0.25) / 0.75 (Falconer & Mackay)."""
    assert increase_between(0.25, 0.375) == pytest.approx(1 / 6)
