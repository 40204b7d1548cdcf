"""The tanks of the groups of a plan."""

from itertools import permutations

import numpy as np
import pytest
from plain_colonies import TODAY, broken, every_plan, stock, value

from colony.planning.pairings.planner import plan_pairings
from colony.planning.pairings.request import BreedingTank, PairingRequest, Stock


@pytest.mark.parametrize("seed", range(6))
def test_groups_in_tanks_are_the_best_ones(seed: int) -> None:
    """With tanks: as many litters as fit any way, and of those plans the best."""
    colony = stock(4, 3, seed)
    chance = np.random.default_rng(seed)
    tanks = [BreedingTank(f"T{n}", float(chance.integers(260, 640)) * 1e3, 515.0) for n in range(3)]
    plan = plan_pairings(colony, PairingRequest(), tanks, today=TODAY)
    most, least = _best_in_tanks(colony, tanks)
    assert len(plan.pairs) == most
    assert plan.objective == pytest.approx(least, abs=2e-6)


def _best_in_tanks(colony: Stock, tanks: list[BreedingTank]) -> tuple[int, float]:
    fitting = []
    for numbers in every_plan(4, 3):
        pairs = [(f"F{d}", f"M{s}") for d, s in numbers]
        sires = sorted({sire for _, sire in pairs})
        for order in permutations([tank.code for tank in tanks], len(sires)):
            where: dict[str, str | None] = dict(zip(sires, order, strict=True))
            if pairs and not broken(colony, PairingRequest(), tanks, pairs, where):
                fitting.append((-len(pairs), value(colony, pairs)))
                break
    count, least = min(fitting)
    return -count, least
