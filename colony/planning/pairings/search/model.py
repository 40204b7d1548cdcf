"""The plan as unknowns and rows.

Unknowns, in this order: open pairs; each sire's first, second ... female (slots), so that his
own part of the mean kinship is a cost of each; sires in tanks; females who stay where they
are; and the rest of the mean kinship, which lies above every tangent (cut) laid to it (Kelley
1960, J. SIAM 8:703-712; Duran & Grossmann 1986, Math. Program. 36:307-339). Choosing mates by
linear programming: Jansen & Wilton 1985, J. Dairy Sci. 68:1302-1305.
"""

from dataclasses import dataclass

import numpy as np

from colony.planning.arrays import Floats, Index
from colony.planning.pairings.groups import SLACK, GroupTanks
from colony.planning.pairings.search.objective import TIE
from colony.planning.pairings.search.problem import PairingProblem
from colony.planning.solver.model import LinearModel
from colony.planning.solver.solution import WholeSolution

SCALE = 100.0
"""Costs are written in hundredths, so that a solver's tolerances lie far below them."""


@dataclass(frozen=True)
class Aim:
    """What one model is solved for: the most litters, or the best plan of so many.

    `fewest_moves` breaks ties, tank by tank; without it tanks that are alike are one.
    """

    litters: int | None = None
    quota_least: tuple[int, ...] = ()
    fewest_moves: bool = False


class PairingModel:
    """One model over some of the open pairs; pairs left out can be asked their price."""

    def __init__(
        self, problem: PairingProblem, pairs: Index, aim: Aim, tangents: list[Floats]
    ) -> None:
        self.problem, self.pairs, self.aim, self.tangents = problem, pairs, aim, tangents
        self.linear = LinearModel()
        self.house = problem.house if aim.fewest_moves else problem.houses_alike
        self.dam, self.sire = problem.objective.dam[pairs], problem.objective.sire[pairs]
        self._add_pairs()
        self._add_slots()
        self._add_places()
        self.stay_pair, self.stay_in = self._stays()
        # Females who stay where they are follow from the others, and so are not whole.
        self.stay = self.linear.add_variables(len(self.stay_pair), cost=-self._tie, whole=False)
        self.curve = self.linear.add_variables(
            1, cost=float(aim.litters is not None), high=np.inf, whole=False
        )
        self._parents()
        self._counts()
        self._tanks()
        self._curve()

    def _add_pairs(self) -> None:
        self.pair = self.linear.add_variables(
            len(self.pairs),
            cost=self._pair_costs(self.pairs),
            low=self.problem.required[self.pairs].astype(float),
        )

    def _add_slots(self) -> None:
        """A slot for the first, second ... female of each sire."""
        capacity, cost = self.problem.capacity, np.zeros(1)
        self.slot_sire = np.repeat(np.arange(len(capacity)), capacity)
        starts = np.repeat(np.cumsum(capacity) - capacity, capacity)
        rank = np.arange(len(self.slot_sire)) - starts
        if self.aim.litters is not None:
            each = SCALE * self.problem.objective.weight / (4 * self.aim.litters**2)
            cost = each * self.problem.own[self._dams + self.slot_sire] * (2 * rank + 1)
        self.slot = self.linear.add_variables(len(self.slot_sire), cost=cost)

    def _add_places(self) -> None:
        """The tanks that each sire may be in."""
        house, none = self.house, np.zeros(0, dtype=np.intp)
        self.in_sire, self.in_tank = house.most_beside.nonzero() if house else (none, none)
        cost = np.zeros(1)
        if house is not None:
            cost = self._tie * (house.sire_home[self.in_sire] != self.in_tank)
        self.place = self.linear.add_variables(len(self.in_sire), cost=cost)

    def _stays(self) -> tuple[Index, Index]:
        """Pairs whose dam could stay in her tank, and the sire's place in it."""
        house = self.house
        if house is None or not self.aim.fewest_moves:
            none = np.zeros(0, dtype=np.intp)
            return none, none
        number = np.full(house.sire_may.shape, -1, dtype=np.intp)
        number[self.in_sire, self.in_tank] = np.arange(len(self.in_sire))
        home = house.dam_home[self.dam]
        place = np.where(home >= 0, number[self.sire, home], -1)
        (pair,) = np.nonzero(place >= 0)
        return pair, place[pair]

    @property
    def _tie(self) -> float:
        """What one animal moved costs, where moves break ties tank by tank."""
        if self.aim.litters is None or not self.aim.fewest_moves:
            return 0.0
        return SCALE * TIE / (2 * self.aim.litters)

    def _pair_costs(self, pairs: Index) -> Floats:
        problem, goal = self.problem, self.problem.objective
        if self.aim.litters is None:
            asked = np.zeros(self._dams)
            for dams, _ in problem.quotas:
                asked = np.maximum(asked, dams * (self._dams + 1.0))
            first: Floats = -1.0 - asked[goal.dam[pairs]]
            return first
        count = self.aim.litters
        own = goal.weight * problem.own[goal.dam[pairs]] / (4 * count**2)
        moved = problem.moves[pairs] if problem.house is None else self.aim.fewest_moves / 2
        costs: Floats = SCALE * (
            (goal.f[pairs] + goal.linear[pairs]) / count + own + TIE * moved / count
        )
        return costs

    @property
    def _dams(self) -> int:
        return self.problem.objective.dams

    def _parents(self) -> None:
        """One sire a dam; a sire's females fill his slots."""
        linear = self.linear
        self.dam_rows = linear.add_rows(self._dams, low=0.0, high=1.0)
        linear.put(self.dam_rows + self.dam, self.pair, 1.0)
        self.sire_rows = linear.add_rows(len(self.problem.capacity), low=0.0, high=0.0)
        linear.put(self.sire_rows + self.sire, self.pair, 1.0)
        linear.put(self.sire_rows + self.slot_sire, self.slot, -1.0)

    def _counts(self) -> None:
        """Litters in all, and of each species or line."""
        most, exact = self.problem.most_litters, self.aim.litters
        low, high = (-np.inf, np.inf if most is None else most) if exact is None else (exact, exact)
        total = self.linear.add_rows(low=low, high=high)
        self.linear.put(total, self.pair, 1.0)
        self.count_rows = [(total, np.ones(self._dams))]
        least = self.aim.quota_least or (0,) * len(self.problem.quotas)
        for (dams, highest), lowest in zip(self.problem.quotas, least, strict=True):
            row = self.linear.add_rows(low=lowest, high=highest)
            self.linear.put(row, self.pair[dams[self.dam]], 1.0)
            self.count_rows.append((row, dams.astype(float)))

    def _tanks(self) -> None:
        """One tank a male and one male a tank; discs fit; a female needs his tank to fit her."""
        house = self.house
        if house is None:
            return
        sires = len(self.problem.capacity)
        for numbers, most in ((self.in_tank, house.alike), (self.in_sire, np.ones(sires))):
            row = self.linear.add_rows(len(most), high=most.astype(float))
            self.linear.put(row + numbers, self.place, 1.0)
        self.room_mm2 = float(house.room_mm2.max(initial=1.0))
        left = house.room_mm2[self.in_tank] * (1 + SLACK) - house.sire_mm2[self.in_sire]
        self.room_rows = self._beside(house.dam_mm2[self.dam] / self.room_mm2, left / self.room_mm2)
        most = np.minimum(
            house.most_beside[self.in_sire, self.in_tank], self.problem.capacity[self.in_sire]
        )
        self.beside_rows = self._beside(np.ones(len(self.pair)), most.astype(float))
        self._needs_his_tank(house)

    def _beside(self, takes: Floats, gives: Floats) -> int:
        """Hold what the females of each sire take to what his tank gives."""
        row = self.linear.add_rows(len(self.problem.capacity), high=0.0)
        self.linear.put(row + self.sire, self.pair, takes)
        self.linear.put(row + self.in_sire, self.place, -gives)
        return row

    def _needs_his_tank(self, house: GroupTanks) -> None:
        linear, here = self.linear, np.arange(len(self.pair))
        row = linear.add_rows(len(here), high=0.0)
        linear.put(row + here, self.pair, 1.0)
        first = np.searchsorted(self.in_sire, self.sire)
        counts = np.searchsorted(self.in_sire, self.sire, side="right") - first
        pair = np.repeat(here, counts)
        nth = np.arange(len(pair)) - np.repeat(np.cumsum(counts) - counts, counts)
        place = first[pair] + nth
        fits = house.dam_fits[self.dam[pair], self.in_tank[place]]
        linear.put(row + pair[fits], self.place[place[fits]], -1.0)
        for other in (self.pair[self.stay_pair], self.place[self.stay_in]):
            row = linear.add_rows(len(self.stay), high=0.0)
            linear.put(row + np.arange(len(self.stay)), self.stay, 1.0)
            linear.put(row + np.arange(len(self.stay)), other, -1.0)

    def _curve(self) -> None:
        """Lay a tangent to the curved part of the mean kinship at each point given."""
        self._strangers()
        self.cut_rows = self.linear.rows
        self.slopes: list[Floats] = []
        if self.aim.litters is None:
            return
        factor = SCALE * self.problem.objective.weight / (4 * self.aim.litters**2)
        for point in self.tangents:
            slope = 2 * factor * (self.problem.curved @ point)
            row = self.linear.add_rows(low=-0.5 * float(slope @ point))
            self.linear.put(row, self.pair, -self._along(slope, self.pairs))
            self.linear.put(row, self.curve, 1.0)
            self.slopes.append(slope)

    def _strangers(self) -> None:
        """Hold the curved part to what it would be if no two parents were kin.

        No kinship is negative, so the mean kinship is not below the part of it that each
        parent has with itself; of whole litters that is a cost of each. It is the closest
        bound where few litters are chosen among many animals, and tangents are where many are.
        """
        goal = self.problem.objective
        self.stranger_row: int | None = None
        if self.aim.litters is None or not len(goal.kinship) or goal.kinship.min() < 0:
            return
        each = SCALE * goal.weight / (4 * self.aim.litters**2)
        self.with_itself = each * np.diag(self.problem.curved)
        capacity = self.problem.capacity
        rank = np.arange(len(self.slot)) - np.repeat(np.cumsum(capacity) - capacity, capacity)
        self.stranger_row = self.linear.add_rows(low=0.0)
        self.linear.put(self.stranger_row, self.curve, 1.0)
        self.linear.put(self.stranger_row, self.pair, -self.with_itself[self.dam])
        self.linear.put(
            self.stranger_row,
            self.slot,
            -self.with_itself[self._dams + self.slot_sire] * (2 * rank + 1),
        )

    def _along(self, slope: Floats, pairs: Index) -> Floats:
        goal = self.problem.objective
        both: Floats = slope[goal.dam[pairs]] + slope[self._dams + goal.sire[pairs]]
        return both

    def chosen(self, answer: WholeSolution) -> Index | None:
        """Numbers, among all open pairs, of those that an answer takes; None without one."""
        chosen = answer.chosen(self.pair)
        return None if chosen is None else self.pairs[chosen]

    def price(self, duals: Floats) -> Floats:
        """Price one more litter of every open pair by the duals of the rows.

        None below zero among the pairs left out proves that they would not help.
        """
        goal, pairs = self.problem.objective, np.arange(len(self.problem.required))
        price = self._pair_costs(pairs) - duals[self.dam_rows + goal.dam]
        price -= duals[self.sire_rows + goal.sire]
        for row, dams in self.count_rows:
            price -= duals[row] * dams[goal.dam]
        if self.stranger_row is not None:
            price += duals[self.stranger_row] * self.with_itself[goal.dam]
        for n, slope in enumerate(self.slopes):
            price += duals[self.cut_rows + n] * self._along(slope, pairs)
        house = self.house
        if house is not None:
            price -= duals[self.room_rows + goal.sire] * house.dam_mm2[goal.dam] / self.room_mm2
            price -= duals[self.beside_rows + goal.sire]
        return price
