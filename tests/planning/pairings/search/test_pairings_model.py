"""The prices that a model puts on pairs left out."""

import numpy as np
import pytest
from plain_colonies import TODAY, stock

from colony.planning.pairings.open_pairs import open_pairs
from colony.planning.pairings.request import PairingRequest
from colony.planning.pairings.search.model import Aim, PairingModel
from colony.planning.pairings.search.problem import pairing_problem
from colony.planning.solver.highs import relax


@pytest.mark.parametrize("seed", range(3))
def test_a_price_is_zero_where_shares_are_used_and_never_below(seed: int) -> None:
    """Prices are reduced costs: complementary slackness of linear programming holds."""
    pairs = open_pairs(stock(12, 6, seed), PairingRequest(most_females=3), (), TODAY)
    problem = pairing_problem(pairs)
    even = np.repeat([1.0, 2.0], [12, 6])
    model = PairingModel(
        problem, np.arange(len(problem.required)), Aim(12), [even, even[::-1].copy()]
    )
    answer = relax(model.linear, seconds=10.0)
    assert answer is not None
    price = model.price(answer.duals)
    shares = answer.values[model.pair]
    between = (shares > 1e-6) & (shares < 1 - 1e-6)
    assert price[between] == pytest.approx(np.zeros(between.sum()), abs=1e-6)
    assert price[shares <= 1e-6].min() >= -1e-6
    assert price[shares >= 1 - 1e-6].max(initial=0.0) <= 1e-6
