"""Pairs taken one by one in an order, as long as each still fits."""

from dataclasses import dataclass, field

import numpy as np

from colony.planning.arrays import Index
from colony.planning.pairings.search.problem import PairingProblem


def greedy_pairs(problem: PairingProblem, order: Index) -> Index:
    """Take pairs in an order, as long as each still fits; those required come first."""
    places = _FreePlaces(problem)
    required = np.flatnonzero(problem.required)
    tried = [*required.tolist(), *order.tolist()]
    return np.array([pair for pair in tried if places.add(pair)], dtype=np.intp)


@dataclass
class _FreePlaces:
    """What is still free while pairs are taken one by one."""

    problem: PairingProblem
    free: list[bool] = field(init=False)
    left: list[int] = field(init=False)
    quotas: list[int] = field(init=False)
    litters: float = field(init=False)
    tank_of: dict[int, int] = field(default_factory=dict)
    room: dict[int, float] = field(default_factory=dict)

    def __post_init__(self) -> None:
        most = self.problem.most_litters
        self.free = [True] * self.problem.objective.dams
        self.left = self.problem.capacity.tolist()
        self.quotas = [count for _, count in self.problem.quotas]
        self.litters = np.inf if most is None else most

    def add(self, pair: int) -> bool:
        """Add a pair if it fits, and tell whether it did."""
        goal = self.problem.objective
        dam, sire = int(goal.dam[pair]), int(goal.sire[pair])
        asked = [n for n, (dams, _) in enumerate(self.problem.quotas) if dams[dam]]
        if not (self.litters and self.free[dam] and self.left[sire]):
            return False
        if not all(self.quotas[n] for n in asked) or not self._housed(dam, sire):
            return False
        self.free[dam] = False
        self.left[sire] -= 1
        self.litters -= 1
        for n in asked:
            self.quotas[n] -= 1
        return True

    def _housed(self, dam: int, sire: int) -> bool:
        house = self.problem.house
        if house is None:
            return True
        tank = self.tank_of.get(sire)
        if tank is None:
            occupied = set(self.tank_of.values())
            rooms = [
                (-house.room_mm2[t], t)
                for t in np.flatnonzero(house.sire_may[sire] & house.dam_fits[dam]).tolist()
                if t not in occupied
            ]
            if not rooms:
                return False
            tank = min(rooms)[1]
            self.room[sire] = float(house.room_mm2[tank] - house.sire_mm2[sire])
        if not house.dam_fits[dam, tank] or self.room[sire] < house.dam_mm2[dam]:
            return False
        self.tank_of[sire] = tank
        self.room[sire] -= float(house.dam_mm2[dam])
        return True
