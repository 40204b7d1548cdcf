"""Hybrids by descent."""

import numpy as np
import pytest
from plain_pedigrees import at, family

from colony.pedigree.graph.species import species_shares


def test_a_hybrid_is_half_of_each_parent_and_what_is_unknown_stays_open() -> None:
    """A cross, a backcross, one of a doubtful sire and one of an unknown one."""
    pedigree = family(
        {
            "Cross": ("Leo", "Mo"),
            "Back": ("Cross", "Mo"),
            "Half": ("Leo", None),
            "Doubt": ("Leo", None),
        },
        Doubt={"Mo": 0.75, "LeoSire": 0.25},
    )
    species = np.full(len(pedigree), -1)
    species[at(pedigree, "Leo", "LeoSire")] = 0
    species[at(pedigree, "Mo")] = 1
    found = species_shares(pedigree, species, 2)
    assert found[at(pedigree, "Cross")] == pytest.approx(np.array([[0.5, 0.5]]))
    assert found[at(pedigree, "Back")] == pytest.approx(np.array([[0.25, 0.75]]))
    assert found[at(pedigree, "Half")] == pytest.approx(np.array([[0.5, 0.0]]))
    assert found[at(pedigree, "Doubt")] == pytest.approx(np.array([[0.625, 0.375]]))


def test_a_recorded_species_holds_whatever_the_parents_are() -> None:
    """Only hybrids are reckoned."""
    pedigree = family({"X": ("D", "S")})
    found = species_shares(pedigree, np.zeros(3, dtype=np.int64), 1)
    assert found.tolist() == [[1.0]] * 3
