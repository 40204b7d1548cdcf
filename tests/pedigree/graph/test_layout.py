"""A pedigree laid out as nodes of two parents each."""

import numpy as np
import pytest
from hypothesis import given
from plain_pedigrees import enumerated, pedigrees

from colony.pedigree.doubt.doubts import Doubt, FounderKinship
from colony.pedigree.graph.graph import Pedigree
from colony.pedigree.graph.layout import build_nodes
from colony.pedigree.kinship.sweep import sweep

NOBODY = np.full(4, -1)


def test_pups_of_one_sire_share_a_node_and_pups_that_may_differ_have_each_their_own() -> None:
    """ONE sire not known which keeps the pups full sibs."""
    dam = np.array([-1, -1, 0, 0, 0])
    sires = (1, -1)
    one_sire = build_nodes(dam, np.full(5, -1), [Doubt((3, 4), sires, (0.5, 0.5))])
    each_own = build_nodes(
        dam, np.full(5, -1), [Doubt((3, 4), sires, (0.5, 0.5), pups_may_differ=True)]
    )
    assert one_sire.second[3] == one_sire.second[4] >= 5
    assert each_own.second[3] != each_own.second[4]
    assert (len(one_sire), len(each_own)) == (6, 7)


def test_a_doubt_with_one_possible_sire_is_none() -> None:
    """The pup is simply his, and no node is added."""
    nodes = build_nodes(NOBODY.copy(), NOBODY.copy(), [Doubt((3,), (1, 2), (1.0, 0.0))])
    assert nodes.second[3] == 1
    assert len(nodes) == 4
    assert nodes.choices == ()


def test_three_possible_sires_are_folded_without_changing_a_share() -> None:
    """Of the three a pup takes half of each share."""
    nodes = build_nodes(NOBODY.copy(), NOBODY.copy(), [Doubt((3,), (0, 1, 2), (0.5, 0.3, 0.2))])
    kept = sweep(nodes, keep=np.arange(4)).kept
    assert kept[3, :3] == pytest.approx(np.array([0.5, 0.3, 0.2]) / 4)


def test_related_founders_have_the_kinship_and_f_that_they_were_given() -> None:
    """Whatever else hangs on them."""
    group = FounderKinship((0, 1), 0.2, 0.1)
    nodes = build_nodes(NOBODY.copy(), NOBODY.copy(), [], [group])
    kept = sweep(nodes, keep=np.arange(3)).kept
    assert kept[:2, :2] == pytest.approx(np.array([[0.55, 0.2], [0.2, 0.55]]))
    assert kept[2].tolist() == [0, 0, 0.5]


@given(pedigrees())
def test_the_nodes_have_the_kinship_of_the_mean_world(pedigree: Pedigree) -> None:
    """However many doubts are folded in, by brute force."""
    nodes = build_nodes(pedigree.dam, pedigree.sire, pedigree.doubts)
    kept = sweep(nodes, keep=np.arange(len(pedigree))).kept
    assert kept == pytest.approx(enumerated(pedigree).expected)
