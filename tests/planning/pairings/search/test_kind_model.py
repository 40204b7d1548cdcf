"""The model over kinds: each plan is in it at no more than its own cost."""

import numpy as np
import pytest
from herds_alike import family_costs

from colony.planning.pairings.request import Deadline, Effort
from colony.planning.pairings.search.descent import good_plan, greedy_counts
from colony.planning.pairings.search.kind_model import Cut, KindModel
from colony.planning.pairings.search.splits import Split
from colony.planning.solver.highs import relax, solve


@pytest.mark.parametrize("litters", [4, 20])
def test_its_bound_is_below_a_good_plan_and_its_answer_is_a_plan(litters: int) -> None:
    """With the split into strangers and its tangent; answers have so many litters."""
    costs = family_costs(litters, most_females=2)
    of = costs.kinds
    start = greedy_counts(costs)
    assert start is not None
    best = costs.value(good_plan(costs, [start], Deadline(Effort())))
    strangers = Split(np.zeros_like(of.kinship), np.diag(of.kinship).copy())
    cuts = [Cut(strangers, np.zeros(len(of.size)))]
    model = KindModel(costs, (), cuts, scale=100.0)
    shares = relax(model.linear, seconds=30)
    assert shares is not None
    whole = solve(model.linear, seconds=30, nodes=1000)
    assert whole.values is not None
    assert shares.cost / 100 <= whole.bound / 100 + 1e-9 <= best + 2e-9
    counts = model.counts(whole.values)
    assert counts.sum() == litters
    assert (of.litters_of(counts) <= of.most).all()
    assert costs.value(counts) >= whole.bound / 100 - 1e-9


def test_nothing_cheaper_than_a_bound_is_impossible() -> None:
    """Asked for a plan cheaper than the least kinship there can be, there is none."""
    costs = family_costs(5, most_females=4)
    of = costs.kinds
    strangers = Split(np.zeros_like(of.kinship), np.diag(of.kinship).copy())
    cuts = [Cut(strangers, np.zeros(len(of.size)))]
    # Ten unrelated parents: 10 * 0.5 / (4 * 25).
    model = KindModel(costs, (), cuts, scale=100.0, cheaper_than=0.0499)
    assert solve(model.linear, seconds=30, nodes=1000).impossible
    model = KindModel(costs, (), cuts, scale=100.0, cheaper_than=0.0501)
    assert solve(model.linear, seconds=30, nodes=1000).values is not None
