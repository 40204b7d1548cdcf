"""F of every animal."""

import subprocess
import sys
from unittest import mock

import numpy as np
import pytest
from hypothesis import given, settings
from plain_pedigrees import at, enumerated, family, pedigrees, plain_kinship

from colony.pedigree.graph.graph import Doubt, FounderKinship, Pedigree
from colony.pedigree.kinship import schedule, sweep
from colony.pedigree.kinship.inbreeding import inbreeding
from colony.refusals.pedigree import TooManyBreeders

CLOSE = 1e-12

# Wright 1922, Coefficients of inbreeding and relationship, Am. Nat. 56:330-338.
MATINGS = {
    "full sibs": (0.25, {"A": ("D", "S"), "B": ("D", "S"), "X": ("A", "B")}),
    "parent and offspring": (0.25, {"A": ("D", "S"), "X": ("A", "S")}),
    "half sibs": (0.125, {"A": ("D", "S"), "B": ("E", "S"), "X": ("A", "B")}),
    "uncle and niece": (
        0.125,
        {"A": ("D", "S"), "B": ("D", "S"), "C": ("A", "T"), "X": ("C", "B")},
    ),
    "double first cousins": (
        0.125,
        {
            "A": ("D", "S"),
            "B": ("D", "S"),
            "C": ("E", "T"),
            "G": ("E", "T"),
            "H": ("A", "C"),
            "I": ("G", "B"),
            "X": ("H", "I"),
        },
    ),
    "first cousins": (
        0.0625,
        {"A": ("D", "S"), "B": ("D", "S"), "C": ("A", "T"), "G": ("E", "B"), "X": ("C", "G")},
    ),
}


@pytest.mark.parametrize("mating", MATINGS)
def test_matings_of_relatives_give_wrights_coefficients(mating: str) -> None:
    """The coefficients that every text gives since Wright 1922."""
    expected, parents = MATINGS[mating]
    pedigree = family(parents)
    assert inbreeding(pedigree)[at(pedigree, "X")] == pytest.approx(expected, abs=CLOSE)


def test_repeated_full_sib_mating_follows_the_table_of_regular_inbreeding() -> None:
    """Falconer & Mackay, Introduction to Quantitative Genetics, table of regular inbreeding."""
    parents: dict[str, tuple[str | None, str | None]] = {}
    for generation in range(1, 8):
        pair = (f"F{generation - 1}", f"M{generation - 1}")
        parents |= {f"F{generation}": pair, f"M{generation}": pair}
    pedigree = family(parents)
    found = inbreeding(pedigree)[at(pedigree, *(f"F{generation}" for generation in range(2, 8)))]
    assert found == pytest.approx([0.25, 0.375, 0.5, 0.59375, 0.671875, 0.734375], abs=CLOSE)


def test_repeated_backcross_to_one_sire_follows_the_table_of_regular_inbreeding() -> None:
    """The same table: (1 + 2 F) / 4 with a sire that is not inbred."""
    parents = {f"F{one}": (f"F{one - 1}", "Sire") for one in range(1, 6)}
    pedigree = family(parents)
    found = inbreeding(pedigree)[at(pedigree, "F2", "F3", "F4", "F5")]
    assert found == pytest.approx([0.25, 0.375, 0.4375, 0.46875], abs=CLOSE)


@settings(max_examples=150, deadline=None)
@given(pedigrees())
def test_expected_f_is_the_mean_over_all_ways_to_settle_the_doubts(pedigree: Pedigree) -> None:
    """With ONE unknown sire and with pups that may differ alike, by brute force."""
    expected = 2 * np.diag(enumerated(pedigree).expected) - 1
    assert inbreeding(pedigree) == pytest.approx(expected, abs=CLOSE)


@pytest.mark.parametrize("at_once", [1, 2, 64])
@settings(max_examples=40, deadline=None)
@given(pedigree=pedigrees(most=30, most_doubts=0))
def test_f_is_that_of_the_plain_definition_in_longer_pedigrees(
    at_once: int, pedigree: Pedigree
) -> None:
    """The table whose slots are given on forgets nobody who is still needed."""
    expected = 2 * np.diag(plain_kinship(pedigree)) - 1
    with mock.patch.object(schedule, "AT_ONCE", at_once):
        assert inbreeding(pedigree) == pytest.approx(expected, abs=CLOSE)


def test_more_breeders_than_fit_in_memory_are_refused_in_words() -> None:
    """What to do instead is said; nothing is allocated."""
    pedigree = family({"A": ("D", "S"), "X": ("A", "S")})
    with (
        mock.patch.object(sweep, "MOST_IN_TABLE", 2),
        pytest.raises(TooManyBreeders, match="more than the 2 whose kinship fits in memory"),
    ):
        inbreeding(pedigree)


@settings(max_examples=50, deadline=None)
@given(pedigrees(most=20))
def test_asking_for_some_gives_the_same_f_and_leaves_strangers_out(pedigree: Pedigree) -> None:
    """Only those asked for and their ancestors are computed; the rest are not a number."""
    asked = np.array([0, len(pedigree) - 1])
    some, everybody = inbreeding(pedigree, of=asked), inbreeding(pedigree)
    assert np.isfinite(some[asked]).all()
    known = np.isfinite(some)
    assert some[known] == pytest.approx(everybody[known], abs=CLOSE)


def test_a_pup_with_an_unknown_parent_is_not_inbred() -> None:
    """Somebody unknown is unrelated."""
    pedigree = family({"A": ("D", "S"), "X": ("A", None)})
    assert inbreeding(pedigree).tolist() == [0.0] * 4


def test_related_founders_pass_their_kinship_on() -> None:
    """F of a pup of two founders from one shipment is the kinship that they were given."""
    pups = family({"X": ("D", "S"), "Y": ("D", "T")})
    related = FounderKinship(tuple(at(pups, "D", "S").tolist()), kinship=0.125, inbreeding=0.25)
    pedigree = Pedigree(pups.tags, pups.dam, pups.sire, pups.sexes, (), (related,))
    found = inbreeding(pedigree)
    assert found[at(pedigree, "X", "Y", "D", "T")] == pytest.approx([0.125, 0, 0.25, 0], abs=CLOSE)


def test_a_doubt_with_one_sire_left_is_no_doubt() -> None:
    """A sire without a share does not count."""
    known = family({"A": ("D", "S"), "B": ("D", "S"), "X": ("A", "B")})
    pup, sire, other = at(known, "X", "B", "S").tolist()
    unsettled = known.sire.copy()
    unsettled[pup] = -1
    doubt = Doubt((pup,), (other, sire), (0.0, 1.0))
    pedigree = Pedigree(known.tags, known.dam, unsettled, known.sexes, (doubt,))
    assert inbreeding(pedigree).tolist() == inbreeding(known).tolist()


def test_an_empty_book_has_no_f() -> None:
    """Nobody, nothing, no error."""
    nobody = np.empty(0, dtype=np.int64)
    assert inbreeding(Pedigree((), nobody, nobody, "")).shape == (0,)


def test_asking_for_f_loads_numpy_and_nothing_heavier() -> None:
    """A plain listing is quick to start."""
    script = "import sys, colony.pedigree.kinship.inbreeding; print(*{'scipy', 'networkx'} & set(sys.modules))"
    loaded = subprocess.run(
        [sys.executable, "-c", script], capture_output=True, text=True, check=True
    )
    assert loaded.stdout.strip() == ""
