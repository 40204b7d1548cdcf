"""Genes handed up and down a pedigree."""

import numpy as np
import pytest
from hypothesis import given
from plain_pedigrees import at, enumerated, family, pedigrees, plain_kinship

from colony.pedigree.graph.descent import mendelian_parts, passed_down, traced_up
from colony.pedigree.graph.graph import Pedigree


def test_a_grandparent_gave_a_quarter() -> None:
    """Half of a parent, a quarter of a grandparent, an eighth more for each further line."""
    pedigree = family({"P": ("D", "S"), "X": ("D", "P")})
    weights = np.zeros(len(pedigree.nodes))
    weights[at(pedigree, "X")] = 1
    traced = dict(zip(pedigree.tags, traced_up(pedigree.nodes, weights).tolist(), strict=True))
    assert traced == {"X": 1, "P": 0.5, "S": 0.25, "D": 0.75}


@given(pedigrees())
def test_kinship_is_what_is_taken_of_each_mendelian_part(pedigree: Pedigree) -> None:
    """T D T' is the kinship of all with all, here against brute force.

    Henderson 1976, A simple method for computing the inverse of a numerator relationship matrix
    used in prediction of breeding values, Biometrics 32:69-83.
    """
    nodes, n = pedigree.nodes, len(pedigree)
    taken = passed_down(nodes, np.eye(len(nodes)))
    found = (taken * mendelian_parts(nodes)) @ taken.T
    assert found[:n, :n] == pytest.approx(enumerated(pedigree).expected, abs=1e-12)


@given(pedigrees(most_doubts=0))
def test_up_is_the_transpose_of_down(pedigree: Pedigree) -> None:
    """What an animal gave to all is what all took of it."""
    nodes = pedigree.nodes
    down = passed_down(nodes, np.eye(len(nodes)))
    up = np.array([traced_up(nodes, row) for row in np.eye(len(nodes))])
    assert up == pytest.approx(down)


def test_a_cut_animal_passes_on_nothing_of_its_parents() -> None:
    """As if nobody knew who they were."""
    pedigree = family({"P": ("D", "S"), "X": ("P", "T")})
    cut = np.zeros(len(pedigree.nodes), dtype=np.bool_)
    cut[at(pedigree, "P")] = True
    weights = np.zeros(len(pedigree.nodes))
    weights[at(pedigree, "X")] = 1
    traced = traced_up(pedigree.nodes, weights, cut=cut)
    assert traced[at(pedigree, "P", "T", "D", "S")].tolist() == [0.5, 0.5, 0, 0]


def test_the_part_of_a_founder_is_a_half_and_of_a_pup_a_quarter() -> None:
    """1/4 - (F_dam + F_sire) / 8, with F by the plain kinship.

    Quaas 1976, Computing the diagonal elements and inverse of a large numerator relationship
    matrix, Biometrics 32:949-953.
    """
    pedigree = family({"P": ("D", "S"), "Q": ("D", "S"), "X": ("P", "Q"), "Y": ("X", "S")})
    inbreeding = 2 * np.diag(plain_kinship(pedigree)) - 1
    parts = dict(zip(pedigree.tags, mendelian_parts(pedigree.nodes).tolist(), strict=True))
    (x,) = at(pedigree, "X").tolist()
    assert inbreeding[x] == 0.25
    assert (parts["D"], parts["P"], parts["X"]) == pytest.approx((0.5, 0.25, 0.25))
    assert parts["Y"] == pytest.approx(0.25 - inbreeding[x] / 8)
