"""The part of a pedigree that some animals descend from."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from plain_pedigrees import at, enumerated, family, pedigrees

from colony.pedigree.graph.above import above
from colony.pedigree.graph.graph import Pedigree
from colony.pedigree.kinship.sweep import sweep


def test_only_the_asked_and_their_ancestors_are_taken() -> None:
    """No pup of theirs, no sib, nobody beside the line."""
    pedigree = family({"P": ("D", "S"), "Q": ("D", "S"), "X": ("P", "T"), "Y": ("Q", "T")})
    part = above(pedigree.nodes, at(pedigree, "X"))
    assert {pedigree.tags[member] for member in part.members} == {"X", "P", "T", "D", "S"}
    assert part.place[at(pedigree, "Y")[0]] == -1


@given(pedigrees(), st.data())
def test_kinship_within_the_part_is_that_within_the_whole(
    pedigree: Pedigree, data: st.DataObject
) -> None:
    """Held against brute force on the whole pedigree, doubts and all."""
    some = st.lists(st.integers(0, len(pedigree) - 1), min_size=1, unique=True)
    asked = np.array(data.draw(some), dtype=np.int64)
    part = above(pedigree.nodes, asked)
    found = sweep(part.nodes, keep=part.place[asked]).kept
    assert found == pytest.approx(enumerated(pedigree).expected[np.ix_(asked, asked)])
