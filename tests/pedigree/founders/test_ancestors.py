"""The ancestors through which the genes of the living came."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from plain_pedigrees import at, family, pedigrees

from colony.pedigree.founders.ancestors import effective_ancestors
from colony.pedigree.founders.founders import diversity
from colony.pedigree.graph.graph import Pedigree

CLOSE = 1e-12


def test_a_bottleneck_lowers_the_effective_ancestors_and_not_the_founders() -> None:
    """Boichard et al. 1997: four founders, but all came through one pair."""
    pairs = {"C": ("A", "B"), "D": ("E", "G")}
    pedigree = family(pairs | {f"P{one}": ("C", "D") for one in range(8)})
    found = diversity(pedigree, at(pedigree, *(f"P{one}" for one in range(8))))
    assert found.effective_founders == pytest.approx(4, abs=CLOSE)
    assert found.effective_ancestors == pytest.approx(2, abs=CLOSE)
    assert found.effective_ancestors_at_least == pytest.approx(2, abs=CLOSE)


def test_what_is_not_explained_widens_the_number_of_ancestors_to_a_range() -> None:
    """One of two equal ancestors taken: 1 / (1/4) at most, 1 / (1/4 + 1/4) at least."""
    pedigree = family({"X": ("D", "S")})
    found = effective_ancestors(pedigree, at(pedigree, "D", "S"), most=1)
    assert found.number == pytest.approx(4)
    assert found.at_least == pytest.approx(2)


@settings(max_examples=60, deadline=None)
@given(pedigrees(most=12, most_doubts=0), st.data())
def test_all_ancestors_together_explain_the_living(pedigree: Pedigree, data: st.DataObject) -> None:
    """The parts sum to 1, and no more ancestors are effective than there are."""
    everybody = st.sets(st.integers(0, len(pedigree) - 1), min_size=1)
    living = np.array(sorted(data.draw(everybody)))
    found = effective_ancestors(pedigree, living)
    assert found.parts.sum() == pytest.approx(1, abs=1e-9)
    assert found.number == pytest.approx(found.at_least)
    assert found.number <= len(found.ancestors) + 1e-9


def test_of_ancestors_that_explain_alike_the_older_is_taken() -> None:
    """The record order decides nothing: a founder whose genes are half of all goes first."""
    pedigree = family({"A": ("D", "S"), "B": ("D", "S")})
    living = at(pedigree, "A", "B")
    found = effective_ancestors(pedigree, living)
    assert [pedigree.tags[ancestor] for ancestor in found.ancestors[:2]] == ["S", "D"]
    assert found.parts.tolist() == [0.5, 0.5]
