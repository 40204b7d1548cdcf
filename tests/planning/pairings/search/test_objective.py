"""What a plan is judged by."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from plain_colonies import TODAY, best_of_all, stock

from colony.planning.arrays import Floats
from colony.planning.pairings.planner import plan_pairings
from colony.planning.pairings.request import PairingRequest, Stock
from colony.planning.pairings.search.objective import own_part


@pytest.mark.parametrize("weight", [0.0, 0.25, 4.0])
@pytest.mark.parametrize("seed", range(3))
def test_the_weight_is_kept(seed: int, weight: float) -> None:
    """Whatever the mean kinship weighs against inbreeding, the best plan is found."""
    colony = stock(6, 4, seed)
    plan = plan_pairings(colony, PairingRequest(most_females=2, weight=weight), today=TODAY)
    assert plan.objective == pytest.approx(best_of_all(colony, 6, 2, weight), abs=2e-6)


@given(st.integers(2, 12), st.integers(0, 10_000), st.booleans())
def test_what_is_split_off_kinship_leaves_no_dips(count: int, seed: int, odd: bool) -> None:
    """Kinship less its diagonal part stays positive semidefinite: tangents lie below it.

    That holds too for kinships given by hand that no pedigree can have.
    """
    kinship = _contradicting(stock(count, 1, seed)) if odd else stock(count, 1, seed).kinship
    rest = kinship - np.diag(own_part(kinship))
    assert np.linalg.eigvalsh(rest)[0] >= -1e-9


@pytest.mark.parametrize("seed", range(3))
def test_founders_whose_kinships_contradict_each_other_do_no_harm(seed: int) -> None:
    """The plan is still the best, and the bound still a bound."""
    colony = stock(6, 4, seed)
    colony = replace(colony, kinship=_contradicting(colony))
    plan = plan_pairings(colony, PairingRequest(most_females=2), today=TODAY)
    best = best_of_all(colony, 6, 2)
    assert plan.objective * (1 - plan.gap) - 2e-6 <= best <= plan.objective + 1e-12


def _contradicting(colony: Stock) -> Floats:
    """Two animals close to a third and not to each other, which no pedigree can give."""
    kinship = colony.kinship.copy()
    kinship[0, -1] = kinship[-1, 0] = kinship[1, -1] = kinship[-1, 1] = 0.6
    kinship[0, 1] = kinship[1, 0] = 0.0
    return kinship
