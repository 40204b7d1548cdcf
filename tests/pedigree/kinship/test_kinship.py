"""Kinship of some animals with others."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from plain_pedigrees import at, enumerated, family, pedigrees

from colony.pedigree.graph.graph import Doubt, FounderKinship, Pedigree
from colony.pedigree.kinship.inbreeding import inbreeding
from colony.pedigree.kinship.kinship import FEW, kinship, mean_kinship

CLOSE = 1e-12


def textbook() -> Pedigree:
    """Mrode, Linear Models for the Prediction of Animal Breeding Values: the A matrix example."""
    return family(
        {
            "3": ("2", "1"),
            "4": (None, "1"),
            "5": ("3", "4"),
            "6": ("2", "5"),
        }
    )


def test_the_textbook_relationships_are_reached() -> None:
    """Mrode's numerator relationships, twice the kinship, and F of 5 and 6."""
    pedigree = textbook()
    found = 2 * kinship(pedigree, at(pedigree, "5", "2", "3"), at(pedigree, "6"))
    assert found[:, 0] == pytest.approx([0.6875, 0.6250, 0.5625], abs=CLOSE)
    assert inbreeding(pedigree)[at(pedigree, "5", "6")] == pytest.approx([0.125, 0.125], abs=CLOSE)


@settings(max_examples=150, deadline=None)
@given(pedigrees(), st.data())
def test_kinship_is_the_mean_over_all_ways_to_settle_the_doubts(
    pedigree: Pedigree, data: st.DataObject
) -> None:
    """For any rows and columns, repeated ones and parents of each other among them."""
    anybody = st.integers(0, len(pedigree) - 1)
    rows = np.array(data.draw(st.lists(anybody, min_size=1, max_size=5)))
    columns = np.array(data.draw(st.lists(anybody, min_size=1, max_size=5)))
    expected = enumerated(pedigree).expected[np.ix_(rows, columns)]
    assert kinship(pedigree, rows, columns) == pytest.approx(expected, abs=CLOSE)


@settings(max_examples=150, deadline=None)
@given(pedigrees(), st.data())
def test_kinship_of_one_with_everybody_is_found_without_a_table(
    pedigree: Pedigree, data: st.DataObject
) -> None:
    """What one takes of each ancestor, passed down, is what the table of all would say."""
    asking = np.array([data.draw(st.integers(0, len(pedigree) - 1))])
    everybody = np.resize(np.arange(len(pedigree)), FEW * (len(pedigree) // FEW + 1))
    expected = enumerated(pedigree).expected[np.ix_(asking, everybody)]
    assert kinship(pedigree, asking, everybody) == pytest.approx(expected, abs=CLOSE)


@settings(max_examples=50, deadline=None)
@given(pedigrees(), st.data())
def test_mean_kinship_is_the_mean_of_the_table(pedigree: Pedigree, data: st.DataObject) -> None:
    """Itself included, as Ballou & Lacy 1995 define it."""
    everybody = st.sets(st.integers(0, len(pedigree) - 1), min_size=1)
    living = np.array(sorted(data.draw(everybody)))
    expected = enumerated(pedigree).expected[np.ix_(living, living)].mean(axis=1)
    assert mean_kinship(pedigree, living) == pytest.approx(expected, abs=CLOSE)


@pytest.mark.parametrize(("differ", "littermates"), [(False, 0.25), (True, 0.1875)])
def test_littermates_of_two_possible_sires_share_what_the_doubt_leaves(
    differ: bool, littermates: float
) -> None:
    """Half and half: full sibs of ONE unknown sire; Henderson 1988 where each is drawn by itself."""
    pedigree = Pedigree(
        tags=("Dam", "One", "Two", "A", "B"),
        dam=np.array([-1, -1, -1, 0, 0]),
        sire=np.full(5, -1),
        sexes="FMMUU",
        doubts=(Doubt((3, 4), (1, 2), (0.5, 0.5), pups_may_differ=differ),),
    )
    found = kinship(pedigree, np.array([3]), np.array([4, 1, 2]))
    assert found[0] == pytest.approx([littermates, 0.125, 0.125], abs=CLOSE)


def test_littermates_of_one_of_two_inbred_sires_share_his_inbreeding() -> None:
    """Sires that are full sibs, each with F 1/4: a quarter of the dam's and of his 1/2 and 5/8."""
    pedigree = family(
        {
            "A": ("D", "S"),
            "B": ("D", "S"),
            "One": ("A", "B"),
            "Two": ("A", "B"),
            "X": ("E", None),
            "Y": ("E", None),
        },
        X={"One": 0.5, "Two": 0.5},
    )
    x, y, one, two = at(pedigree, "X", "Y", "One", "Two").tolist()
    litter = replace(pedigree, doubts=(Doubt((x, y), (one, two), (0.5, 0.5)),))
    found = kinship(litter, np.array([x]), np.array([y]))
    assert found[0, 0] == pytest.approx((0.5 + 0.625) / 4, abs=CLOSE)


def test_kinship_with_itself_is_half_of_one_plus_f() -> None:
    """The diagonal of any table."""
    pedigree = textbook()
    six = at(pedigree, "6")
    assert kinship(pedigree, six, six)[0, 0] == pytest.approx((1 + 0.125) / 2, abs=CLOSE)


def test_related_founders_and_their_pups_share_the_kinship_given() -> None:
    """Pups of two related founders by strangers are related by a quarter of it."""
    pups = family({"X": ("D", "T"), "Y": ("E", "S")})
    related = FounderKinship(tuple(at(pups, "D", "S").tolist()), kinship=0.25)
    pedigree = Pedigree(pups.tags, pups.dam, pups.sire, pups.sexes, (), (related,))
    found = kinship(pedigree, at(pedigree, "X", "D"), at(pedigree, "Y", "S", "D"))
    assert found[0] == pytest.approx([0.0625, 0.125, 0.25], abs=CLOSE)
    assert found[1] == pytest.approx([0.125, 0.25, 0.5], abs=CLOSE)


def test_nobody_is_kin_to_nobody() -> None:
    """Empty rows or columns give an empty table."""
    pedigree = textbook()
    nobody = np.empty(0, dtype=np.int64)
    assert kinship(pedigree, nobody, at(pedigree, "5")).shape == (0, 1)
    assert kinship(pedigree, at(pedigree, "5"), nobody).shape == (1, 0)
