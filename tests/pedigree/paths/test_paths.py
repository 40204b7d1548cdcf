"""Why an animal is inbred."""

import numpy as np
import pytest
from hypothesis import given, settings
from plain_pedigrees import at, enumerated, family, pedigrees

from colony.pedigree.graph.graph import FounderKinship, Pedigree
from colony.pedigree.paths.paths import Why, why_inbred, why_related

CLOSE = 1e-12


def test_first_cousins_have_a_path_through_each_grandparent() -> None:
    """Wright 1922: 1/2^5 for each of the two, from one parent of the pup to the other."""
    pedigree = family(
        {"A": ("D", "S"), "B": ("D", "S"), "C": ("A", "T"), "G": ("E", "B"), "X": ("C", "G")}
    )
    why = why_inbred(pedigree, at(pedigree, "X")[0])
    assert {path.ancestor: (path.first, path.second, path.adds) for path in why.paths} == {
        "D": (("C", "A"), ("G", "B"), 1 / 32),
        "S": (("C", "A"), ("G", "B"), 1 / 32),
    }
    assert why.kinship == pytest.approx(0.0625, abs=CLOSE)


def test_a_parent_that_is_the_common_ancestor_stands_at_the_end_of_the_path() -> None:
    """A backcross: the sire is the ancestor and has no way of his own."""
    pedigree = family({"A": ("D", "S"), "X": ("A", "S")})
    (path,) = why_inbred(pedigree, at(pedigree, "X")[0]).paths
    assert (path.ancestor, path.first, path.second, path.adds) == ("S", ("A",), (), 0.25)


def test_an_inbred_ancestor_adds_more() -> None:
    """The path is weighted with (1 + F) of the ancestor, here 1.25."""
    pedigree = family(
        {"A": ("D", "S"), "B": ("D", "S"), "I": ("A", "B"), "P": ("E", "I"), "Q": ("G", "I")}
    )
    p, q = at(pedigree, "P", "Q").tolist()
    (path,) = why_related(pedigree, p, q).paths
    assert path.adds == pytest.approx(0.25 * 1.25 / 2, abs=CLOSE)


def test_a_doubtful_sire_is_a_step_that_says_who_he_may_be() -> None:
    """Down from Bruno by way of the doubt, with his share."""
    pedigree = family({"X": ("D", None), "Y": ("E", "Bruno")}, X={"Bruno": 0.75, "Caro": 0.25})
    x, y = at(pedigree, "X", "Y").tolist()
    (path,) = why_related(pedigree, x, y).paths
    assert (path.ancestor, path.first, path.second) == ("Bruno", ("X", "Bruno or Caro"), ("Y",))
    assert path.adds == pytest.approx(0.75 / 8, abs=CLOSE)


def test_related_founders_are_explained_by_their_stock() -> None:
    """What the shipment has in common stands where a common ancestor would."""
    pups = family({"X": ("D", "S")})
    group = FounderKinship(tuple(at(pups, "D", "S").tolist()), 0.1)
    pedigree = Pedigree(pups.tags, pups.dam, pups.sire, pups.sexes, (), (group,))
    (path,) = why_inbred(pedigree, at(pedigree, "X")[0]).paths
    assert path.ancestor == "stock of D and S"
    assert path.adds == pytest.approx(0.1, abs=CLOSE)


def test_an_unknown_parent_leaves_nothing_to_explain() -> None:
    """F is 0 and no path stands."""
    pedigree = family({"A": ("D", None)})
    assert why_inbred(pedigree, at(pedigree, "A")[0]) == Why(0.0, (), ())


@settings(max_examples=150, deadline=None)
@given(pedigrees())
def test_paths_and_ancestors_both_sum_to_the_kinship(pedigree: Pedigree) -> None:
    """To 1e-12, with doubts of every kind, against brute force over their settlements."""
    expected = enumerated(pedigree).expected
    for one, other in ((0, 1), (len(pedigree) - 1, 0)):
        why = why_related(pedigree, one, other)
        assert why.kinship == pytest.approx(expected[one, other], abs=CLOSE)
        assert sum(path.adds for path in why.paths) == pytest.approx(why.kinship, abs=CLOSE)
        assert sum(part.adds for part in why.ancestors) == pytest.approx(why.kinship, abs=CLOSE)


@settings(max_examples=50, deadline=None)
@given(pedigrees(most=25, most_doubts=0))
def test_no_animal_but_the_ancestor_stands_on_both_sides(pedigree: Pedigree) -> None:
    """Wright's rule; and every path is listed once, as many as the ancestor's count says."""
    why = why_inbred(pedigree, int(np.argmax(pedigree.nodes.step)), most=10_000)
    for path in why.paths:
        assert not {path.ancestor, *path.first} & set(path.second)
        assert path.ancestor not in path.first
    assert len(set(why.paths)) == len(why.paths) == sum(part.paths for part in why.ancestors)


def test_thousands_of_paths_are_summed_by_ancestor_instead() -> None:
    """Ten generations of full sib mating have more paths than anybody reads."""
    pairs = {f"{sex}{one}": (f"F{one - 1}", f"M{one - 1}") for one in range(1, 11) for sex in "FM"}
    pedigree = family(pairs)
    why = why_inbred(pedigree, at(pedigree, "F10")[0])
    assert why.paths == ()
    assert sum(part.paths for part in why.ancestors) > 200
    assert sum(part.adds for part in why.ancestors) == pytest.approx(why.kinship, abs=CLOSE)
    assert why.kinship == pytest.approx(plain_full_sib_f(10), abs=CLOSE)


def plain_full_sib_f(generations: int) -> float:
    """F after repeated full sib mating, (1 + 2 F' + F'') / 4 (Falconer & Mackay)."""
    before, now = 0.0, 0.0
    for _ in range(generations - 1):
        before, now = now, (1 + 2 * now + before) / 4
    return now
