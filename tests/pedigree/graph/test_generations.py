"""Generations from the wild."""

import numpy as np
import pytest
from plain_pedigrees import at, family

from colony.pedigree.graph.generations import generation_numbers, generation_word


@pytest.mark.parametrize(
    ("tag", "word"),
    [
        ("Wild", "wild"),
        ("HalfWild", "F1"),
        ("F1", "F1"),
        ("F1b", "F1"),
        ("F2", "F2"),
        ("F3", "F2"),
        ("Stray", "undetermined"),
        ("OfStray", "undetermined"),
        ("OneParent", "undetermined"),
        ("Unsure", "undetermined"),
        ("UnsureWild", "F1"),
    ],
)
def test_a_pup_is_one_more_than_the_lesser_of_its_parents(tag: str, word: str) -> None:
    """Wild with anything is F1; a parent not known leaves it undetermined unless one is wild."""
    pedigree = family(
        {
            "HalfWild": ("Wild", None),
            "F1": ("Wild", "WildSire"),
            "F1b": ("Wild", "Stray"),
            "Brother": ("Wild", "WildSire"),
            "F2": ("F1", "Brother"),
            "F2b": ("F1", "Brother"),
            "F3": ("F1", "F2b"),
            "OfStray": ("F1", "Stray"),
            "OneParent": ("F1", None),
            "Unsure": ("F1", None),
            "UnsureWild": ("Wild", None),
        },
        Unsure={"Brother": 0.5, "?": 0.5},
        UnsureWild={"Brother": 0.5, "?": 0.5},
    )
    wild = np.isin(np.array(pedigree.tags), ["Wild", "WildSire"])
    number = generation_numbers(pedigree, wild)
    assert generation_word(int(number[at(pedigree, tag)[0]])) == word


def test_possible_sires_of_one_number_leave_no_doubt() -> None:
    """Two brothers, either of them F1."""
    pedigree = family(
        {"One": ("W", "V"), "Two": ("W", "V"), "Dam": ("W", "V"), "X": ("Dam", None)},
        X={"One": 0.5, "Two": 0.5},
    )
    wild = np.isin(np.array(pedigree.tags), ["W", "V"])
    assert generation_numbers(pedigree, wild)[at(pedigree, "X")].tolist() == [2]


def test_a_pup_conceived_in_the_wild_counts_as_wild() -> None:
    """A litter of a female imported pregnant: its own pups are F1."""
    pedigree = family({"Pup": ("Mother", None), "Next": ("Pup", "Stranger")})
    wild = np.isin(np.array(pedigree.tags), ["Mother", "Pup"])
    assert generation_numbers(pedigree, wild)[at(pedigree, "Pup", "Next")].tolist() == [0, 1]


def test_possible_sires_of_different_numbers_leave_it_undetermined() -> None:
    """An F1 and his F2 son: with the first the pup is F2, with the other F3."""
    pedigree = family(
        {
            "One": ("W", "V"),
            "Sister": ("W", "V"),
            "Two": ("Sister", "One"),
            "Dam": ("Sister", "One"),
            "X": ("Dam", None),
        },
        X={"One": 0.5, "Two": 0.5},
    )
    wild = np.isin(np.array(pedigree.tags), ["W", "V"])
    number = generation_numbers(pedigree, wild)
    assert number[at(pedigree, "One", "Two", "Dam", "X")].tolist() == [1, 2, 2, -1]
