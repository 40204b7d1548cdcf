"""Alleles on their way from the founders."""

from math import sqrt

import numpy as np
from numpy.typing import NDArray
from plain_pedigrees import at, family

from colony.pedigree.founders.alleles import drop_alleles
from colony.pedigree.graph.graph import Pedigree

DROPS = 4000


def dropped(pedigree: Pedigree, tag: str) -> NDArray[np.int32]:
    """The two alleles of an animal in each drop, (2, drops)."""
    alleles = drop_alleles(pedigree.nodes, np.random.default_rng(1), DROPS)
    return np.asarray(alleles[at(pedigree, tag)[0]])


def near(share: float, expected: float) -> bool:
    """Whether a share is within five standard errors of a proportion."""
    return abs(share - expected) < 5 * sqrt(expected * (1 - expected) / DROPS)


def test_a_pup_has_one_allele_of_each_parent_each_as_often() -> None:
    """Mendel 1866, Versuche ueber Pflanzen-Hybriden: the gametes of a hybrid are equally many."""
    pedigree = family({"P": ("D", "S")})
    pup, dam, sire = (dropped(pedigree, tag) for tag in ("P", "D", "S"))
    for side, parent in enumerate((dam, sire)):
        first, second = pup[side] == parent[0], pup[side] == parent[1]
        assert (first ^ second).all()
        assert near(float(first.mean()), 0.5)


def test_founders_hold_two_alleles_that_nobody_else_holds() -> None:
    """Whatever is dropped, a founder is itself; an unknown parent's allele is new too."""
    pedigree = family({"P": ("D", "S"), "H": ("D", None)})
    alleles = [*dropped(pedigree, "D"), *dropped(pedigree, "S"), dropped(pedigree, "H")[1]]
    assert len({int(number) for some in alleles for number in some}) == 5


def test_the_pup_of_full_sibs_is_identical_by_descent_in_a_quarter_of_drops() -> None:
    """F is 1/4 (Wright 1922, Coefficients of inbreeding and relationship, Am. Nat. 56:330-338)."""
    pedigree = family({"A": ("D", "S"), "B": ("D", "S"), "P": ("A", "B")})
    pup = dropped(pedigree, "P")
    assert near(float((pup[0] == pup[1]).mean()), 0.25)


def test_a_sire_in_doubt_is_each_of_the_possible_as_often_as_said() -> None:
    """With shares of 0.7 and 0.3 the pup's allele comes from the one in 70 % of drops."""
    pedigree = family({"P": ("D", None)}, P={"S": 0.7, "T": 0.3})
    of_s, pup = dropped(pedigree, "S"), dropped(pedigree, "P")
    assert near(float(np.isin(pup[1], of_s).mean()), 0.7)
