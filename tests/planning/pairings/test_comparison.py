"""Two plans beside each other."""

import pytest
from plain_colonies import TODAY, stock

from colony.planning.pairings.comparison import compare_plans
from colony.planning.pairings.planner import plan_pairings
from colony.planning.pairings.request import PairingRequest


def test_two_plans_stand_side_by_side() -> None:
    """Pairs are told apart, and each figure is shown with its difference."""
    colony = stock(5, 3, seed=6)
    first = plan_pairings(colony, PairingRequest(), today=TODAY)
    without = frozenset({first.pairs[0].sire})
    second = plan_pairings(colony, PairingRequest(excluded=without), today=TODAY)
    found = compare_plans(first, second)
    assert len(found.in_both) + len(found.only_first) == len(first.pairs)
    assert len(found.in_both) + len(found.only_second) == len(second.pairs)
    assert first.pairs[0] in found.only_first
    measures = {m.name: m for m in found.measures}
    assert measures["objective"].difference == pytest.approx(second.objective - first.objective)
    assert measures["litters"].first == len(first.pairs)
