"""Who of the living would keep most of the founders' genes."""

import numpy as np
import pytest
from plain_pedigrees import at, family

from colony.pedigree.founders.breeders import breeder_values
from colony.pedigree.kinship.kinship import kinship


def test_the_only_one_of_its_line_is_the_most_valuable() -> None:
    """Mean kinship as Ballou & Lacy 1995 define it; value is what it lies below the average."""
    pedigree = family({"A": ("D", "S"), "B": ("D", "S"), "C": ("E", "T")})
    living = at(pedigree, "A", "B", "C")
    found = breeder_values(pedigree, living)
    expected = kinship(pedigree, living, living).mean(axis=1)
    assert found.mean_kinship == pytest.approx(expected)
    assert found.value == pytest.approx(expected.mean() - expected)
    assert found.rank.tolist() == [2, 2, 1]


def test_kin_that_will_leave_no_pups_are_no_rivals() -> None:
    """Kinship value: weighted with what is still expected of each."""
    pedigree = family({"A": ("D", "S"), "B": ("D", "S"), "C": ("E", "T")})
    living = at(pedigree, "A", "B", "C")
    found = breeder_values(pedigree, living, np.array([1.0, 0.0, 1.0]))
    assert found.mean_kinship == pytest.approx([0.25, 0.125, 0.25])
    assert found.rank.tolist() == [2, 1, 2]
