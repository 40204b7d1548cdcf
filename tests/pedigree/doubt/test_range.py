"""The least and the greatest F over what the doubtful sires may be."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from plain_pedigrees import at, enumerated, family, pedigrees

from colony.pedigree.doubt.range import inbreeding_range, kinship_range
from colony.pedigree.graph.graph import Doubt, Pedigree
from colony.pedigree.kinship.kinship import kinship

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


def test_an_unknown_sire_of_one_litter_is_the_same_stranger_to_all_its_pups() -> None:
    """Littermates of the dam's father or of ONE stranger: 3/8, or 1/4 all the same."""
    pedigree = family({"D": ("E", "S"), "X": ("D", None), "Y": ("D", None)}, X={"S": 0.5, "?": 0.5})
    x, y, s = at(pedigree, "X", "Y", "S").tolist()
    litter = replace(pedigree, doubts=(Doubt((x, y), (s, -1), (0.5, 0.5)),))
    found = kinship_range(litter, np.array([x]), np.array([y]))
    assert (found.least.tolist(), found.greatest.tolist()) == ([0.25], [0.375])


def test_a_sire_without_a_share_is_not_possible() -> None:
    """Settled to nothing, he widens no range."""
    pedigree = family({"D": ("E", "S"), "X": ("D", None)}, X={"S": 0.0, "T": 0.5, "?": 0.5})
    found = inbreeding_range(pedigree, at(pedigree, "X"))
    assert (found.least.tolist(), found.greatest.tolist()) == ([0.0], [0.0])


def test_bounds_take_the_tighter_of_two_ways_to_reckon() -> None:
    """One doubt, met before it splits: the bound is what the assignments give."""
    pedigree = family(
        {"Two": ("D", "S"), "E": ("D", "S"), "J": ("E", "One"), "X": ("G", None)},
        X={"One": 0.5, "Two": 0.5},
    )
    x, j = at(pedigree, "X"), at(pedigree, "J")
    exact, bounds = kinship_range(pedigree, x, j), kinship_range(pedigree, x, j, cells=0)
    assert exact.exact.all()
    assert exact.least.tolist() == bounds.least.tolist() == [0.0625]
    assert exact.greatest.tolist() == bounds.greatest.tolist() == [0.125]


def test_a_doubt_in_a_deep_book_costs_what_it_touches() -> None:
    """Twenty generations of settled ancestors leave a doubt of yesterday exact."""
    pairs = {f"{s}{one}": (f"F{one - 1}", f"M{one - 1}") for one in range(1, 21) for s in "FM"}
    parents: dict[str, tuple[str | None, str | None]] = dict(pairs)
    pedigree = family(parents | {"X": ("F20", None)}, X={"M20": 0.5, "M0": 0.25, "?": 0.25})
    found = inbreeding_range(pedigree, at(pedigree, "X"), cells=10_000)
    sires = kinship(pedigree, at(pedigree, "F20"), at(pedigree, "M20"))
    assert found.exact.all()
    assert (found.least[0], found.greatest[0]) == (0.0, pytest.approx(sires[0, 0]))


def test_without_doubts_the_range_is_one_figure() -> None:
    """Least, greatest and expected are the same."""
    pedigree = family({"A": ("D", "S"), "B": ("D", "S"), "X": ("A", "B")})
    found = inbreeding_range(pedigree, at(pedigree, "X"))
    assert found.least.tolist() == found.greatest.tolist() == [0.25]
    assert found.exact.all()
