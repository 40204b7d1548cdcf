"""The widths of a colony as arrays, and what they say of a pup."""

from datetime import date, timedelta

import numpy as np
import pytest

from colony.planning.pups.growth import GrowthPrior, Width
from colony.planning.pups.growth_data import (
    FLAT_MM,
    Grower,
    Guess,
    evidence_of_widths,
    packed,
    slopes,
)

BORN = date(2024, 1, 1)
PRIOR = GrowthPrior(763.06, 0.12, birth_mm=149, birth_spread_mm=15)


def grower(tag: str, *widths: float, litter: str = "L1") -> Grower:
    """Make a pup measured every thirty days."""
    seen = tuple(Width(BORN + timedelta(days=30 * n), w) for n, w in enumerate(widths))
    return Grower(tag, "leopoldi", "F", litter, BORN, seen, PRIOR)


def test_widths_are_padded_and_a_birth_width_counts_by_its_own_error() -> None:
    """Two widths beside none: the second pup has the species' birth width, 25 times less sure."""
    widths = packed([grower("a", 150, 160), grower("b", litter="")], error_mm=3.0)
    assert widths.width_mm.tolist() == [[150, 160], [149, 0]]
    assert widths.counts.tolist() == [[1, 1], [pytest.approx((3 / 15) ** 2), 0]]
    assert widths.years[0].tolist() == [0, pytest.approx(30 / 365.25)]
    assert widths.litter.tolist() == [0, 1]
    assert widths.colony_of_litter.tolist() == [0, 0]


def test_the_evidence_is_that_of_weighted_least_squares() -> None:
    """With the first width integrated out, precision is the Schur complement of the normal equations."""
    widths = packed([grower("a", 150, 166, 175)], error_mm=3.0)
    guess = Guess(np.array([150.0]), np.array([[0.1, -0.05]]))
    at = slopes(widths, guess)
    seen, given = evidence_of_widths(widths, guess, at, 3.0)
    design = at.by_unknown[0]
    normal = design.T @ design / 9 + np.diag([FLAT_MM**-2, 0, 0])
    schur = normal[1:, 1:] - np.outer(normal[1:, 0], normal[0, 1:]) / normal[0, 0]
    assert seen.precision[0] == pytest.approx(schur)
    assert given.variance[0] == pytest.approx(1 / normal[0, 0])
