"""Exchanges of litters: they keep the limits, never make a plan worse, and find the best."""

import numpy as np
import pytest
from herds_alike import family_costs, problem_of
from plain_colonies import best_of_all, stock

from colony.planning.pairings.request import Deadline, Effort, PairingRequest
from colony.planning.pairings.search.alike import kinds
from colony.planning.pairings.search.descent import (
    KindCosts,
    descended,
    good_plan,
    greedy_counts,
)

UNHURRIED = Deadline(Effort())


@pytest.mark.parametrize("seed", range(5))
def test_on_small_colonies_it_finds_the_best_of_all_plans(seed: int) -> None:
    """8 dams and 6 sires, every plan tried one by one."""
    colony = stock(8, 6, seed)
    of = kinds(problem_of(colony, PairingRequest(most_females=3)))
    costs = KindCosts(of, 8, 1.0)
    start = greedy_counts(costs)
    assert start is not None
    found = good_plan(costs, [start], UNHURRIED)
    assert costs.value(found) == pytest.approx(best_of_all(colony, 8, 3), abs=1e-12)


@pytest.mark.parametrize("litters", [3, 12, 30])
def test_exchanges_keep_every_limit_and_never_cost_more(litters: int) -> None:
    """From the greedy plan of a herd of families."""
    costs = family_costs(litters, most_females=1)
    of = costs.kinds
    start = greedy_counts(costs)
    assert start is not None
    found = descended(costs, start, UNHURRIED)
    assert found.sum() == litters
    assert (of.litters_of(found) <= of.most).all()
    assert costs.value(found) <= costs.value(start)
    assert (found >= 0).all()
    # No single exchange is left that would help.
    for out in np.flatnonzero(found):
        for into in range(len(found)):
            other = found.copy()
            other[out] -= 1
            other[into] += 1
            if (of.litters_of(other) <= of.most).all():
                assert costs.value(other) >= costs.value(found) - 1e-12
