"""The plan as unknowns and rows.

Unknowns, in this order: open pairs; each sire's first, second ... female (slots), so that his
own part of the mean kinship is a cost of each; sires in tanks; females who stay where they
are; and the rest of the mean kinship, which lies above every tangent (cut) laid to it (Kelley
1960, J. SIAM 8:703-712; Duran & Grossmann 1986, Math. Program. 36:307-339). Choosing mates by
linear programming: Jansen & Wilton 1985, J. Dairy Sci. 68:1302-1305.
"""

from dataclasses import dataclass, field
from functools import cached_property

import numpy as np

from colony.planning.pairings.groups import SLACK, GroupTanks, alike_together
from colony.planning.pairings.request import Bools, Floats, Index
from colony.planning.pairings.search.objective import TIE, Objective, own_part

SCALE = 100.0
"""Costs are written in hundredths, so that a solver's tolerances lie far below them."""


@dataclass(frozen=True, eq=False)
class PairingProblem:
    """What is to be solved, in numbers.

    `capacity` (b,) is how many females each sire may have; `quotas` are groups of dams (a,)
    with their most litters; `must` (P,) are pairs asked for; `moves` (P,) what share of a pair
    moves, where no tanks are offered. `most_litters` is None for as many as can be.
    """

    objective: Objective
    capacity: Index
    quotas: tuple[tuple[Bools, int], ...]
    must: Bools
    moves: Floats
    house: GroupTanks | None
    most_litters: int | None

    @cached_property
    def houses_alike(self) -> GroupTanks | None:
        """The tanks, those that are alike taken together."""
        return self.house and alike_together(self.house)

    @cached_property
    def own(self) -> Floats:
        """The part of kinship that is each parent's own."""
        return own_part(self.objective.kinship)

    @cached_property
    def curved(self) -> Floats:
        """Kinship without each parent's own part."""
        curved: Floats = self.objective.kinship - np.diag(self.own)
        return curved


@dataclass(frozen=True)
class Aim:
    """What one model is solved for: the most litters, or the best plan of so many.

    `fewest_moves` breaks ties, tank by tank; without it tanks that are alike are one.
    """

    litters: int | None = None
    quota_least: tuple[int, ...] = ()
    fewest_moves: bool = False


@dataclass
class Rows:
    """Rows of a model as triplets of a sparse matrix, with their bounds."""

    row: list[Index] = field(default_factory=list)
    column: list[Index] = field(default_factory=list)
    factor: list[Floats] = field(default_factory=list)
    low: list[float] = field(default_factory=list)
    high: list[float] = field(default_factory=list)

    def begin(self, low: Floats, high: Floats) -> int:
        """Begin rows with these bounds; returns the number of the first."""
        first = len(self.low)
        self.low.extend(low.tolist())
        self.high.extend(high.tolist())
        return first

    def put(self, row: Index, column: Index, factor: float | Floats) -> None:
        """Put factors into rows begun before."""
        self.row.append(row)
        self.column.append(column)
        self.factor.append(np.broadcast_to(factor, column.shape))


class Model:
    """One model over some of the open pairs; pairs left out can be asked their price."""

    def __init__(
        self, question: PairingProblem, pairs: Index, aim: Aim, tangents: list[Floats]
    ) -> None:
        self.question, self.pairs, self.aim, self.tangents = question, pairs, aim, tangents
        self.rows = Rows()
        self.house = question.house if aim.fewest_moves else question.houses_alike
        self._columns()
        self._parents()
        self._counts()
        self._tanks()
        self._curve()

    def _columns(self) -> None:
        q, house = self.question, self.house
        self.dam, self.sire = q.objective.dam[self.pairs], q.objective.sire[self.pairs]
        self.slot_sire = np.repeat(np.arange(len(q.capacity)), q.capacity)
        starts = np.repeat(np.cumsum(q.capacity) - q.capacity, q.capacity)
        self.slot_rank = np.arange(len(self.slot_sire)) - starts
        none = np.zeros(0, dtype=np.intp)
        self.in_sire, self.in_tank = house.most_beside.nonzero() if house else (none, none)
        self.stay_pair, self.stay_in = self._stays()
        sizes = (len(self.pairs), len(self.slot_sire), len(self.in_sire), len(self.stay_pair), 1)
        ends = np.cumsum(sizes)
        self.slots, self.places, self.stays, self.curve = (int(end) for end in ends[:-1])
        self.size = int(ends[-1])

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
    def costs(self) -> Floats:
        """What each unknown costs, in hundredths of the objective."""
        costs = np.zeros(self.size)
        costs[: self.slots] = self._pair_costs(self.pairs)
        if self.aim.litters is None:
            return costs
        each = SCALE * self.question.objective.weight / (4 * self.aim.litters**2)
        costs[self.slots : self.places] = (
            each * self.question.own[self._dams + self.slot_sire] * (2 * self.slot_rank + 1)
        )
        house, tie = self.house, SCALE * TIE / (2 * self.aim.litters)
        if house is not None and self.aim.fewest_moves:
            costs[self.places : self.stays] = tie * (house.sire_home[self.in_sire] != self.in_tank)
            costs[self.stays : self.curve] = -tie
        costs[self.curve] = 1.0
        return costs

    def _pair_costs(self, pairs: Index) -> Floats:
        question, goal = self.question, self.question.objective
        if self.aim.litters is None:
            asked = np.zeros(self._dams)
            for dams, _ in question.quotas:
                asked = np.maximum(asked, dams * (self._dams + 1.0))
            first: Floats = -1.0 - asked[goal.dam[pairs]]
            return first
        count = self.aim.litters
        own = goal.weight * question.own[goal.dam[pairs]] / (4 * count**2)
        moved = question.moves[pairs] if question.house is None else self.aim.fewest_moves / 2
        costs: Floats = SCALE * (
            (goal.f[pairs] + goal.linear[pairs]) / count + own + TIE * moved / count
        )
        return costs

    @property
    def _dams(self) -> int:
        return self.question.objective.dams

    @property
    def low(self) -> Floats:
        """The least of each unknown: a pair that must be, is."""
        low = np.zeros(self.size)
        low[: self.slots] = self.question.must[self.pairs]
        return low

    @property
    def high(self) -> Floats:
        """The greatest of each unknown."""
        high = np.ones(self.size)
        high[self.curve] = np.inf
        return high

    @property
    def whole(self) -> Bools:
        """Which unknowns are whole: all but the females who stay, which follow, and the curve."""
        whole = np.zeros(self.size, dtype=bool)
        whole[: self.stays] = True
        return whole

    def _parents(self) -> None:
        """One sire a dam; a sire's females fill his slots."""
        here = np.arange(len(self.pairs))
        self.dam_rows = self.rows.begin(np.zeros(self._dams), np.ones(self._dams))
        self.rows.put(self.dam_rows + self.dam, here, 1.0)
        none = np.zeros(len(self.question.capacity))
        self.sire_rows = self.rows.begin(none, none)
        self.rows.put(self.sire_rows + self.sire, here, 1.0)
        slots = np.arange(self.slots, self.places)
        self.rows.put(self.sire_rows + self.slot_sire, slots, -1.0)

    def _counts(self) -> None:
        """Litters in all, and of each species or line."""
        here = np.arange(len(self.pairs))
        most, exact = self.question.most_litters, self.aim.litters
        high = np.inf if most is None else most
        low = -np.inf if exact is None else exact
        total = self.rows.begin(np.array([low]), np.array([high if exact is None else exact]))
        self.rows.put(np.full(len(here), total), here, 1.0)
        self.count_rows = [(total, np.ones(self._dams))]
        least = self.aim.quota_least or (0,) * len(self.question.quotas)
        for (dams, highest), lowest in zip(self.question.quotas, least, strict=True):
            row = self.rows.begin(np.array([float(lowest)]), np.array([float(highest)]))
            of_them = here[dams[self.dam]]
            self.rows.put(np.full(len(of_them), row), of_them, 1.0)
            self.count_rows.append((row, dams.astype(float)))

    def _tanks(self) -> None:
        """One tank a male and one male a tank; discs fit; a female needs his tank to fit her."""
        house = self.house
        if house is None:
            return
        places, here = np.arange(self.places, self.stays), np.arange(len(self.pairs))
        sires = len(self.question.capacity)
        for numbers, most in ((self.in_tank, house.alike), (self.in_sire, np.ones(sires))):
            row = self.rows.begin(np.full(len(most), -np.inf), most.astype(float))
            self.rows.put(row + numbers, places, 1.0)
        self.room_mm2 = float(house.room_mm2.max(initial=1.0))
        left = house.room_mm2[self.in_tank] * (1 + SLACK) - house.sire_mm2[self.in_sire]
        self.room_rows = self._beside(house.dam_mm2[self.dam] / self.room_mm2, left / self.room_mm2)
        most = np.minimum(
            house.most_beside[self.in_sire, self.in_tank], self.question.capacity[self.in_sire]
        )
        self.beside_rows = self._beside(np.ones(len(here)), most.astype(float))
        self._needs_his_tank(house, places, here)

    def _beside(self, takes: Floats, gives: Floats) -> int:
        """Hold what the females of each sire take to what his tank gives."""
        sires = len(self.question.capacity)
        row = self.rows.begin(np.full(sires, -np.inf), np.zeros(sires))
        self.rows.put(row + self.sire, np.arange(len(self.pairs)), takes)
        self.rows.put(row + self.in_sire, np.arange(self.places, self.stays), -gives)
        return row

    def _needs_his_tank(self, house: GroupTanks, places: Index, here: Index) -> None:
        row = self.rows.begin(np.full(len(here), -np.inf), np.zeros(len(here)))
        self.rows.put(row + here, here, 1.0)
        first = np.searchsorted(self.in_sire, self.sire)
        counts = np.searchsorted(self.in_sire, self.sire, side="right") - first
        pair = np.repeat(here, counts)
        nth = np.arange(len(pair)) - np.repeat(np.cumsum(counts) - counts, counts)
        place = first[pair] + nth
        fits = house.dam_fits[self.dam[pair], self.in_tank[place]]
        self.rows.put(row + pair[fits], places[place[fits]], -1.0)
        stays = np.arange(self.stays, self.curve)
        for other in (self.stay_pair, places[self.stay_in]):
            row = self.rows.begin(np.full(len(stays), -np.inf), np.zeros(len(stays)))
            self.rows.put(row + np.arange(len(stays)), stays, 1.0)
            self.rows.put(row + np.arange(len(stays)), other, -1.0)

    def _curve(self) -> None:
        """Lay a tangent to the curved part of the mean kinship at each point given."""
        self.cut_rows = len(self.rows.low)
        self.slopes: list[Floats] = []
        if self.aim.litters is None:
            return
        factor = SCALE * self.question.objective.weight / (4 * self.aim.litters**2)
        here = np.arange(len(self.pairs))
        for point in self.tangents:
            slope = 2 * factor * (self.question.curved @ point)
            base = -0.5 * float(slope @ point)
            row = self.rows.begin(np.array([base]), np.array([np.inf]))
            self.rows.put(np.full(len(here), row), here, -self._along(slope, self.pairs))
            self.rows.put(np.array([row]), np.array([self.curve]), 1.0)
            self.slopes.append(slope)

    def _along(self, slope: Floats, pairs: Index) -> Floats:
        goal = self.question.objective
        both: Floats = slope[goal.dam[pairs]] + slope[self._dams + goal.sire[pairs]]
        return both

    def price(self, duals: Floats) -> Floats:
        """Price one more litter of every open pair by the duals of the rows.

        None below zero among the pairs left out proves that they would not help.
        """
        goal, pairs = self.question.objective, np.arange(len(self.question.must))
        price = self._pair_costs(pairs) - duals[self.dam_rows + goal.dam]
        price -= duals[self.sire_rows + goal.sire]
        for row, dams in self.count_rows:
            price -= duals[row] * dams[goal.dam]
        for n, slope in enumerate(self.slopes):
            price += duals[self.cut_rows + n] * self._along(slope, pairs)
        house = self.house
        if house is not None:
            price -= duals[self.room_rows + goal.sire] * house.dam_mm2[goal.dam] / self.room_mm2
            price -= duals[self.beside_rows + goal.sire]
        return price
