"""The moves that a plan asks for."""

from dataclasses import replace

import numpy as np
from pairing_plans import pairs, plan_of
from plain_colonies import stock

from colony.planning.pairings.request import BreedingTank


def test_ties_are_broken_by_fewest_moves() -> None:
    """Among equal plans the one that leaves pairs together is taken, with and without tanks."""
    unrelated = np.eye(6) / 2
    colony = replace(stock(3, 3), kinship=unrelated, homes=("T0", "T1", "T2", "T2", "T0", "T1"))
    stay = {("F0", "M1"), ("F1", "M2"), ("F2", "M0")}
    for tanks in ((), tuple(BreedingTank(f"T{n}", 1e6) for n in range(3))):
        plan = plan_of(colony, *tanks, most_females=1)
        assert pairs(plan) == stay
        assert plan.moves == ()


def test_moves_are_a_work_list() -> None:
    """A female goes to her male; in a group's tank, who is not of the group makes room."""
    colony = replace(stock(2, 1), homes=("A", "B", "C"))
    moves = [(m.tag, m.from_tank, m.to_tank) for m in plan_of(colony).moves]
    assert moves == [("F0", "A", "C"), ("F1", "B", "C")]
    one = plan_of(
        colony, BreedingTank("A", 1e6), required_pairs=frozenset({("F1", "M0")}), litters=1
    )
    moves = [(m.tag, m.from_tank, m.to_tank) for m in one.moves]
    assert moves == [("F0", "A", None), ("F1", "B", "A"), ("M0", "C", "A")]
