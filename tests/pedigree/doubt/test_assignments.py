"""Every way in which the doubtful sires above two animals may be settled."""

from math import prod

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from plain_pedigrees import at, enumerated, family, pedigrees

from colony.pedigree.doubt.assignments import affected_by_doubt, assignments
from colony.pedigree.graph.graph import Pedigree
from colony.pedigree.kinship.sweep import sweep

TWO_DOUBTS = family(
    {"P": ("D", None), "Q": ("E", None), "X": ("P", "Q"), "Y": ("D", "S")},
    P={"S": 0.5, "T": 0.5},
    Q={"S": 0.2, "T": 0.3, "?": 0.5},
)


def test_the_ways_are_the_product_of_the_choices() -> None:
    """Two sires of one pup and three of another are six ways; above one pup alone there are two."""
    affected = affected_by_doubt(TWO_DOUBTS.nodes)
    (p, q, d, s) = at(TWO_DOUBTS, "P", "Q", "D", "S").tolist()
    assert assignments(TWO_DOUBTS.nodes, affected, p, q).ways == prod((2, 3))
    assert assignments(TWO_DOUBTS.nodes, affected, p, s).ways == 2
    assert assignments(TWO_DOUBTS.nodes, affected, d, s).ways == 1


def test_doubt_touches_pups_and_their_pups_and_nobody_else() -> None:
    """P and Q are in doubt, X descends from both, Y from neither."""
    affected = affected_by_doubt(TWO_DOUBTS.nodes)
    named = dict(zip(TWO_DOUBTS.tags, affected.tolist(), strict=False))
    assert {tag for tag, doubtful in named.items() if doubtful} == {"P", "Q", "X"}


@settings(max_examples=100, deadline=None)
@given(pedigrees(), st.data())
def test_the_extremes_are_those_of_brute_force(pedigree: Pedigree, data: st.DataObject) -> None:
    """Of two animals, over every world in which the doubts could be settled."""
    some = st.integers(0, len(pedigree) - 1)
    first, second = data.draw(some), data.draw(some)
    case = assignments(pedigree.nodes, affected_by_doubt(pedigree.nodes), first, second)
    known = enumerated(pedigree)
    among = sweep(pedigree.nodes, keep=case.settled).kept
    least, greatest = case.extremes(pedigree.nodes, among)
    assert least == pytest.approx(known.least[first, second])
    assert greatest == pytest.approx(known.greatest[first, second])
