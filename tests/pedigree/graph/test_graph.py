"""Pedigrees that cannot be."""

import numpy as np
import pytest
from plain_pedigrees import family

from colony.pedigree.graph.graph import Doubt, FounderKinship, Pedigree
from colony.refusals.pedigree import FemaleSire, MaleDam, NotAFounder, OwnAncestor


def test_an_animal_that_descends_from_itself_is_refused_with_the_way_round() -> None:
    """Every animal of the loop is named, and nobody else."""
    with pytest.raises(OwnAncestor) as refused:
        family({"A": ("C", "S"), "B": ("A", None), "C": ("B", None), "X": ("C", "S")})
    assert {"A", "B", "C"} <= set(refused.value.sentence.replace(",", "").split())
    assert "X" not in refused.value.sentence.split()


def test_a_loop_through_a_possible_sire_is_refused() -> None:
    """A pup cannot be a possible sire of its own grandsire's litter."""
    with pytest.raises(OwnAncestor, match="own ancestor"):
        Pedigree(
            ("Dam", "Sire", "Pup"),
            np.array([-1, 0, 0]),
            np.array([-1, -1, 1]),
            "FMM",
            (Doubt((1,), (2, -1), (0.5, 0.5)),),
        )


def test_an_animal_as_its_own_sire_is_refused() -> None:
    """The shortest loop."""
    with pytest.raises(OwnAncestor, match="A is a parent of A"):
        Pedigree(("A",), np.array([-1]), np.array([0]), "M")


def test_a_male_dam_is_refused_with_both_named() -> None:
    """Of each pair: who, and whose."""
    with pytest.raises(MaleDam, match="Bruno is male and stands as dam of Cleo"):
        Pedigree(("Bruno", "Cleo"), np.array([-1, 0]), np.array([-1, -1]), "MF")


@pytest.mark.parametrize("doubts", [(), (Doubt((1,), (0, -1), (0.4, 0.6)),)])
def test_a_female_sire_is_refused_possible_or_certain(doubts: tuple[Doubt, ...]) -> None:
    """Of each pair: who, and whose."""
    sire = -1 if doubts else 0
    with pytest.raises(FemaleSire, match="Alma is female and stands as sire of Cleo"):
        Pedigree(("Alma", "Cleo"), np.array([-1, -1]), np.array([-1, sire]), "FF", doubts)


def test_many_wrong_sexes_are_named_up_to_five() -> None:
    """The sentence stays readable."""
    with pytest.raises(MaleDam, match="of P4 and 3 more: correct"):
        Pedigree(
            ("Bruno", *(f"P{one}" for one in range(8))),
            np.array([-1] + [0] * 8),
            np.full(9, -1),
            ["M"] + ["U"] * 8,
        )


@pytest.mark.parametrize("founders", [(0, 2), (0, 0)])
def test_a_founders_kinship_is_for_founders_each_once(founders: tuple[int, ...]) -> None:
    """An animal with recorded parents has its kinship from them."""
    with pytest.raises(NotAFounder):
        Pedigree(
            ("Dam", "Sire", "Pup"),
            np.array([-1, -1, 0]),
            np.array([-1, -1, 1]),
            "FMU",
            founder_kinship=(FounderKinship(founders, 0.1),),
        )


@pytest.mark.parametrize(
    "wrong",
    [
        lambda: Doubt((1,), (0,), (0.5,)),
        lambda: Doubt((1,), (0, 2), (1.0,)),
        lambda: Doubt((1,), (0, 2), (1.5, -0.5)),
        lambda: FounderKinship((0, 1), 0.6),
        lambda: FounderKinship((0, 1), -0.1),
        lambda: Pedigree(("A",), np.array([7]), np.array([-1]), "F"),
        lambda: Pedigree(("A",), np.array([-1]), np.array([-1]), "FF"),
        lambda: Pedigree(
            ("A", "B"), np.array([-1, -1]), np.array([-1, 0]), "MF", (Doubt((1,), (-1,), (1.0,)),)
        ),
    ],
)
def test_what_no_reader_should_hand_over_is_an_error(wrong: object) -> None:
    """Shares that do not sum to 1, positions outside, a settled pup in doubt."""
    assert callable(wrong)
    with pytest.raises(ValueError, match=r".{20}"):
        wrong()
