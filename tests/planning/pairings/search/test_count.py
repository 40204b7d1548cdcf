"""How many litters there can be, and the pairs a search begins with."""

import numpy as np
import pytest
from plain_colonies import TODAY, best_of_all, every_plan, stock, value

from colony.planning.pairings.planner import plan_pairings
from colony.planning.pairings.request import PairingRequest
from colony.planning.pairings.search import count as pairing_count


@pytest.mark.parametrize("seed", range(4))
def test_pairs_left_out_at_first_are_let_in(seed: int, monkeypatch: pytest.MonkeyPatch) -> None:
    """Begun with the cheapest pair of each parent alone, the search still finds the best."""
    monkeypatch.setattr(pairing_count, "NEAR_FOR_DAM", 1)
    monkeypatch.setattr(pairing_count, "NEAR_FOR_SIRE", 1)
    colony = stock(7, 5, seed)
    plan = plan_pairings(colony, PairingRequest(most_females=2), today=TODAY)
    assert plan.objective == pytest.approx(best_of_all(colony, 7, 2), abs=2e-6)


@pytest.mark.parametrize("seed", range(3))
def test_chosen_litters_are_the_best_ones(seed: int) -> None:
    """When fewer litters than dams are asked for, dams and sires are chosen together."""
    colony = stock(5, 3, seed)
    plan = plan_pairings(colony, PairingRequest(litters=3, most_females=2), today=TODAY)
    least = min(
        value(colony, [(f"F{d}", f"M{s}") for d, s in pairs])
        for pairs in every_plan(5, 3)
        if len(pairs) == 3 and max(np.bincount([s for _, s in pairs])) <= 2
    )
    assert plan.objective == pytest.approx(least, abs=2e-6)
