"""Which tank each group gets: the fewest animals moved from where they are today."""

import numpy as np

from colony.planning.arrays import Floats, Index
from colony.planning.pairings.groups import GroupTanks
from colony.planning.pairings.search.problem import PairingProblem
from colony.planning.solver.highs import assign

ROUNDING = 1e-5
"""Share of the largest room that a solver, which works in floating point, may be over by."""


def group_tanks(problem: PairingProblem, chosen: Index) -> dict[int, int]:
    """Give each sire's group the tank that moves the fewest; empty where no tanks were offered."""
    house = problem.house
    if house is None or not len(chosen):
        return {}
    sires = np.unique(problem.objective.sire[chosen])
    costs = np.array([_costs(house, sire, _dams(problem, chosen, sire)) for sire in sires])
    return dict(zip(sires.tolist(), assign(costs).tolist(), strict=True))


def animals_moved(problem: PairingProblem, chosen: Index) -> float:
    """Count the animals that a plan moves, as a share of one for each pair."""
    house = problem.house
    if house is None:
        return float(problem.moves[chosen].sum())
    moved = 0.0
    for sire, tank in group_tanks(problem, chosen).items():
        moved += _moved(house, sire, _dams(problem, chosen, sire))[tank]
    return moved / 2


def _dams(problem: PairingProblem, chosen: Index, sire: int) -> Index:
    goal = problem.objective
    theirs: Index = goal.dam[chosen[goal.sire[chosen] == sire]]
    return theirs


def _costs(house: GroupTanks, sire: int, dams: Index) -> Floats:
    """Animals moved into each tank by a group; infinite where it does not fit."""
    takes = house.sire_mm2[sire] + house.dam_mm2[dams].sum()
    room = house.room_mm2 + ROUNDING * house.room_mm2.max()
    fits = house.sire_may[sire] & house.dam_fits[dams].all(axis=0) & (takes <= room)
    return np.where(fits, _moved(house, sire, dams), np.inf)


def _moved(house: GroupTanks, sire: int, dams: Index) -> Floats:
    tanks = np.arange(len(house.room_mm2))
    females: Floats = (house.dam_home[dams][:, None] != tanks).sum(axis=0).astype(float)
    moved: Floats = females + (house.sire_home[sire] != tanks)
    return moved
