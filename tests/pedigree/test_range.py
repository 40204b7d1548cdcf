"""The least and the greatest F over what the doubtful sires may be."""

import numpy as np
import pytest
from hypothesis import given, settings
from plain_pedigrees import at, enumerated, family, pedigrees

from colony.pedigree.graph import Pedigree
from colony.pedigree.range import inbreeding_range, kinship_range

CLOSE = 1e-12


@settings(max_examples=150, deadline=None)
@given(pedigrees())
def test_the_range_of_f_is_that_over_all_assignments(pedigree: Pedigree) -> None:
    """Exact while the assignments are few, by brute force."""
    known = enumerated(pedigree)
    found = inbreeding_range(pedigree, np.arange(len(pedigree)))
    assert found.exact.all()
    assert found.least == pytest.approx(2 * np.diag(known.least) - 1, abs=CLOSE)
    assert found.greatest == pytest.approx(2 * np.diag(known.greatest) - 1, abs=CLOSE)


@settings(max_examples=100, deadline=None)
@given(pedigrees())
def test_the_range_of_kinship_is_that_over_all_assignments(pedigree: Pedigree) -> None:
    """For every pair, an animal with itself among them."""
    one, other = (place.ravel() for place in np.indices((len(pedigree),) * 2))
    known, found = enumerated(pedigree), kinship_range(pedigree, one, other)
    assert found.exact.all()
    assert found.least == pytest.approx(known.least[one, other], abs=CLOSE)
    assert found.greatest == pytest.approx(known.greatest[one, other], abs=CLOSE)


@settings(max_examples=150, deadline=None)
@given(pedigrees())
def test_no_assignment_goes_beyond_the_bounds(pedigree: Pedigree) -> None:
    """Where no assignment may be gone through, what is said exact is exact all the same."""
    one, other = (place.ravel() for place in np.indices((len(pedigree),) * 2))
    known, found = enumerated(pedigree), kinship_range(pedigree, one, other, cells=0)
    least, greatest = known.least[one, other], known.greatest[one, other]
    assert (found.least <= least + CLOSE).all()
    assert (found.greatest >= greatest - CLOSE).all()
    assert found.least[found.exact] == pytest.approx(least[found.exact], abs=CLOSE)
    assert found.greatest[found.exact] == pytest.approx(greatest[found.exact], abs=CLOSE)


def test_too_many_assignments_are_bounded_and_said_to_be() -> None:
    """A chain of forty doubtful sires has more assignments than can be gone through."""
    doubtful = {f"P{one}": {f"P{one - 1}": 0.5, "S": 0.5} for one in range(2, 42)}
    parents = {"P1": ("D", "S"), **dict.fromkeys(doubtful, ("D", None))}
    pedigree = family(parents, **doubtful)
    found = inbreeding_range(pedigree, at(pedigree, "P2", "P41"))
    assert found.exact.tolist() == [True, False]
    assert found.least[0] == pytest.approx(0.0)
    assert found.greatest[0] == pytest.approx(0.25)


def test_without_doubts_the_range_is_one_figure() -> None:
    """Least, greatest and expected are the same."""
    pedigree = family({"A": ("D", "S"), "B": ("D", "S"), "X": ("A", "B")})
    found = inbreeding_range(pedigree, at(pedigree, "X"))
    assert found.least.tolist() == found.greatest.tolist() == [0.25]
    assert found.exact.all()
