"""Where the animals go that may be moved: an exact choice by mixed-integer programming.

One yes/no unknown for each animal and each tank open to it; the limits as rows. HiGHS
(Huangfu & Hall 2018, Parallelizing the dual revised simplex method, Math. Program. Comput.
10:119-142) finds the best choice or proves that there is none.
"""

from dataclasses import dataclass
from math import ceil
from typing import Literal

import numpy as np

from colony.planning.arrays import Bools, Index
from colony.planning.solver.highs import solve
from colony.planning.solver.model import LinearModel
from colony.planning.solver.solution import WholeSolution
from colony.planning.tanks.placement_problem import (
    PlacementProblem,
    left_mm2,
    mates_of,
    open_pairs,
    pair_mm2,
    put_not_together,
)
from colony.planning.tanks.week import SLACK


@dataclass(frozen=True)
class SolverEffort:
    """How hard to try before the best found so far is taken; no seconds, no trial."""

    seconds: float = 3.0
    nodes: int = 20_000


DEFAULT_EFFORT = SolverEffort()


@dataclass(frozen=True)
class Answer:
    """What was found.

    `tank` gives each free animal's tank (-1: sold; the number of tanks: the extra tank);
    `bound` is the proved least of what was asked for: moves, sales, or mm2 of floor.
    """

    status: Literal["best", "found", "impossible", "unknown"]
    tank: tuple[int, ...] = ()
    moves: int = 0
    splits: int = 0
    sold: int = 0
    floor_mm2: float = 0.0
    bound: float = 0.0


def place(problem: PlacementProblem, effort: SolverEffort = DEFAULT_EFFORT) -> Answer:
    """Answer a question of housing.

    Returns
    -------
    Answer
        "best" is proved, "found" keeps every limit but may not be the least, "impossible" is
        a proof that no choice of these animals' tanks keeps the limits.
    """
    if not effort.seconds:
        return Answer("unknown")
    model = _PlacementModel(problem)
    if model.homeless:
        return Answer("impossible")
    found = solve(model.linear(), seconds=effort.seconds, nodes=effort.nodes)
    if found.values is None:
        return Answer("impossible" if found.impossible else "unknown")
    return model.answer(found)


class _PlacementModel:
    """The unknowns and rows of one problem.

    Unknowns: the open pairs, then one "sold" or one "in the extra tank" for each free animal
    if asked for, then one for each litter in each tank, then the floor of the extra tank in
    square metres.
    """

    def __init__(self, problem: PlacementProblem) -> None:
        self.problem, self.week, self.free = problem, problem.week, problem.free
        self.pairs = open_pairs(problem)
        self.mates = mates_of(problem, self.pairs)
        self.moved: Bools = self.week.home[self.free[self.pairs.animal]] != self.pairs.tank

    @property
    def homeless(self) -> bool:
        """Whether an animal has no tank open to it and may not leave the house."""
        stays = self.problem.means == "move"
        return stays and len(np.unique(self.pairs.animal)) < len(self.free)

    def linear(self) -> LinearModel:
        """Write the problem down."""
        model = LinearModel()
        self._variables(model)
        self._somewhere(model)
        self._capacity(model)
        self._clashes(model)
        self.mates.put(model, self.pair, self.litter_there)
        if self.problem.means == "build":
            self._extra_tank(model)
        if self.problem.least and self.problem.means == "move":
            row = model.add_rows(low=self.problem.least)
            model.put(row, self.pair[self.moved], 1.0)
        return model

    def _variables(self, model: LinearModel) -> None:
        """Add the unknowns; the first thing asked for outweighs the second."""
        builds, free = self.problem.means == "build", len(self.free)
        counted = 0.0 if builds else 1.0
        outside = 0 if self.problem.means == "move" else free
        may_go = self.week.sellable[self.free] if self.problem.means == "sell" else np.ones(free)
        a_move = counted * self.weight
        self.pair = model.add_variables(len(self.moved), cost=np.where(self.moved, a_move, 0.0))
        self.outside = model.add_variables(
            outside, cost=counted * (free + 1.0), high=may_go[:outside].astype(float)
        )
        self.litter_there = model.add_variables(
            len(self.mates.cost), cost=counted * self.mates.cost
        )
        self.floor = model.add_variables(int(builds), cost=1.0, high=np.inf, whole=False)

    @property
    def weight(self) -> float:
        """What one move costs, where a split litter costs 1."""
        return 1.0 if self.problem.means == "sell" else float(self.mates.cost.sum()) + 1.0

    def answer(self, found: WholeSolution) -> Answer:
        """Read the solution."""
        chosen, values = found.chosen(self.pair), found.values
        if chosen is None or values is None:
            return Answer("unknown")
        means = self.problem.means
        tank = np.full(len(self.free), len(self.week.tanks) if means == "build" else -1)
        tank[self.pairs.animal[chosen]] = self.pairs.tank[chosen]
        splits = float(values[self.litter_there] @ self.mates.cost)
        return Answer(
            status="best" if found.proved else "found",
            tank=tuple(tank.tolist()),
            moves=int(self.moved[chosen].sum()),
            splits=round(splits) if means == "move" else 0,
            sold=int((tank < 0).sum()),
            floor_mm2=float(values[self.floor].sum()) * 1e6,
            bound=self._bound(max(found.bound, 0.0)),
        )

    def _bound(self, bound: float) -> float:
        if self.problem.means == "build":
            return bound * 1e6
        unit = self.weight if self.problem.means == "move" else len(self.free) + 1.0
        spare = float(self.mates.cost.sum()) if self.problem.means == "move" else len(self.free)
        return max(ceil((bound - spare) / unit - 1e-6), 0)

    def _somewhere(self, model: LinearModel) -> None:
        """Put every free animal in one place."""
        row = model.add_rows(len(self.free), low=1.0, high=1.0)
        model.put(row + self.pairs.animal, self.pair, 1.0)
        model.put(row + np.arange(len(self.outside)), self.outside, 1.0)

    def _capacity(self, model: LinearModel) -> None:
        """Discs on the floor of a tank, beside those of the animals that stay there."""
        used = np.unique(self.pairs.tank)
        left = left_mm2(self.problem)[used] / 1e6
        finite = np.where(np.isfinite(left), left * (1 + SLACK), 1e9)
        row = model.add_rows(len(used), high=finite)
        area = pair_mm2(self.problem, self.pairs) / 1e6
        model.put(row + np.searchsorted(used, self.pairs.tank), self.pair, area)

    def _clashes(self, model: LinearModel) -> None:
        """Animals too unlike in size are not put together, in any tank."""
        later = self.problem.later
        unlike = np.array([later.clash(row, self.free) for row in self.free.tolist()])
        for tank in np.unique(self.pairs.tank).tolist():
            here = np.flatnonzero(self.pairs.tank == tank)
            put_not_together(model, self.pair[here], self.pairs.animal[here], unlike)
        if self.problem.means == "build":
            put_not_together(model, self.outside, np.arange(len(self.free)), unlike)

    def _extra_tank(self, model: LinearModel) -> None:
        """Make the extra tank large enough for all it takes, and for the largest of them."""
        limits = self.week.limits
        row = model.add_rows(high=0.0)
        model.put(row, self.outside, self.week.disc_mm2[self.free] / 1e6)
        model.put(row, self.floor, -limits.load)
        largest = (
            limits.widths_across * limits.widths_along * (self.week.large_mm[self.free] ** 2) / 1e6
        )
        each = model.add_rows(len(self.outside), high=0.0)
        rows: Index = each + np.arange(len(self.outside))
        model.put(rows, self.outside, largest)
        model.put(rows, np.repeat(self.floor, len(rows)), -1.0)
