"""What each common ancestor adds."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from plain_pedigrees import at, family, pedigrees, plain_kinship

from colony.pedigree.graph.graph import Pedigree
from colony.pedigree.kinship.sweep import sweep
from colony.pedigree.paths.shares import ancestor_shares


@given(pedigrees(most_doubts=0), st.data())
def test_the_parts_of_all_ancestors_sum_to_the_kinship(
    pedigree: Pedigree, data: st.DataObject
) -> None:
    """Wright 1922, Coefficients of inbreeding and relationship: the paths add up, by brute force."""
    some = st.integers(0, len(pedigree) - 1)
    first = data.draw(some)
    second = data.draw(some.filter(lambda place: place != first))
    shares = ancestor_shares(pedigree.nodes, sweep(pedigree.nodes).own, first, second)
    assert shares.adds.sum() == pytest.approx(plain_kinship(pedigree)[first, second])
    assert ((shares.adds > 0) == (shares.paths > 0)).all()


def test_full_sibs_have_an_eighth_through_each_parent() -> None:
    """One path of two steps each: (1/2)^2 times 1/2."""
    pedigree = family({"P": ("D", "S"), "Q": ("D", "S")})
    first, second = at(pedigree, "P", "Q").tolist()
    shares = ancestor_shares(pedigree.nodes, np.full(len(pedigree), 0.5), first, second)
    assert shares.adds[at(pedigree, "D", "S")].tolist() == [0.125, 0.125]
    assert shares.paths[at(pedigree, "D", "S", "P", "Q")].tolist() == [1, 1, 0, 0]
