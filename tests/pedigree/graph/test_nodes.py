"""The order of descent, and who is above whom."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from plain_pedigrees import at, family, pedigrees

from colony.pedigree.graph.graph import Pedigree
from colony.pedigree.graph.layout import build_nodes
from colony.pedigree.graph.nodes import Looped


@given(pedigrees())
def test_parents_stand_before_their_pups_in_any_order_of_record(pedigree: Pedigree) -> None:
    """And by step all nodes are there, each once."""
    nodes = pedigree.nodes
    place = np.argsort(nodes.order)
    for parents in (nodes.first, nodes.second):
        known = parents >= 0
        assert (place[parents[known]] < place[known]).all()
    assert sorted(np.concatenate(nodes.by_step).tolist()) == list(range(len(nodes)))


@given(pedigrees(), st.data())
def test_ancestors_are_found_as_one_walks_up(pedigree: Pedigree, data: st.DataObject) -> None:
    """Against a plain walk from parent to parent."""
    nodes = pedigree.nodes
    start = data.draw(st.integers(0, len(nodes) - 1))
    found, waiting = set(), [start]
    while waiting:
        node = waiting.pop()
        if node >= 0 and node not in found:
            found.add(node)
            waiting += [int(nodes.first[node]), int(nodes.second[node])]
    assert set(np.flatnonzero(nodes.ancestors_of(np.array([start]))).tolist()) == found


def test_a_loop_is_named_by_those_who_are_in_it_and_nobody_else() -> None:
    """0 is the dam of 1, 1 of 2, 2 of 0; 3 hangs below."""
    with pytest.raises(Looped) as caught:
        build_nodes(np.array([2, 0, 1, 2]), np.full(4, -1), []).step  # noqa: B018 - computing it is the test
    assert sorted(caught.value.nodes) == [0, 1, 2]


def test_who_has_pups_is_a_parent() -> None:
    """Dam and sire alike, and no pup without pups."""
    pedigree = family({"P": ("D", "S")})
    parents = pedigree.nodes.are_parents
    assert parents[at(pedigree, "D", "S", "P")].tolist() == [True, True, False]
