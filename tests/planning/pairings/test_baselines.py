"""Rules of thumb beside a plan."""

import pytest
from plain_colonies import TODAY, stock, value

from colony.planning.pairings.baselines import Rule, baseline_pairs
from colony.planning.pairings.planner import plan_pairings
from colony.planning.pairings.request import PairingRequest


@pytest.mark.parametrize("rule", ["least kin first", "random"])
@pytest.mark.parametrize("seed", range(4))
def test_no_rule_of_thumb_is_better(seed: int, rule: Rule) -> None:
    """On 24 dams and 10 sires neither greed nor chance comes below the plan."""
    colony, request = stock(24, 10, seed), PairingRequest(most_females=4)
    plan = plan_pairings(colony, request, today=TODAY)
    rival = baseline_pairs(colony, request, rule=rule, today=TODAY, seed=seed)
    assert len(rival) == len(plan.pairs) == 24
    assert plan.optimal
    assert plan.objective <= value(colony, rival) + 1e-9
