"""Where the animals go that may be moved: an exact choice by mixed-integer programming.

One yes/no unknown for each animal and each tank open to it; the limits as rows. HiGHS
(Huangfu & Hall 2018, Parallelizing the dual revised simplex method, Math. Program. Comput.
10:119-142) finds the best choice or proves that there is none.
"""

from dataclasses import dataclass
from math import ceil
from typing import Literal

import numpy as np
from numpy.typing import NDArray
from scipy.optimize import Bounds, LinearConstraint, milp
from scipy.sparse import coo_array

from colony.planning.tanks.placement_rows import (
    PlacementProblem,
    PlacementRows,
    left_mm2,
    mates_of,
    not_together,
    open_pairs,
    pair_mm2,
)
from colony.planning.tanks.week import SLACK, Array, Bools


@dataclass(frozen=True)
class SolverEffort:
    """How hard to try before the best found so far is taken; no seconds, no trial."""

    seconds: float = 3.0
    nodes: int = 20_000


DEFAULT_EFFORT = SolverEffort()


IMPOSSIBLE = 2
"""HiGHS's word, through scipy, for a model proved to have no solution."""

CHOSEN = 0.5
"""A yes/no unknown above this is a yes: solvers answer in floating point."""


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


def place(question: PlacementProblem, effort: SolverEffort = DEFAULT_EFFORT) -> Answer:
    """Answer a question of housing.

    Returns
    -------
    Answer
        "best" is proved, "found" keeps every limit but may not be the least, "impossible" is
        a proof that no choice of these animals' tanks keeps the limits.
    """
    if not effort.seconds:
        return Answer("unknown")
    model = _Model(question)
    if model.homeless:
        return Answer("impossible")
    solved = milp(
        model.costs,
        integrality=model.whole,
        bounds=Bounds(0, model.highest),
        constraints=model.constraint(),
        options={"time_limit": effort.seconds, "node_limit": effort.nodes, "mip_rel_gap": 0.0},
    )
    if solved.x is None:
        return Answer("impossible" if solved.status == IMPOSSIBLE else "unknown")
    return model.answer(solved.x, solved.mip_dual_bound, proved=solved.status == 0)


class _Model:
    """The unknowns and rows of one question.

    Columns: the open pairs, then one "sold" or one "in the extra tank" for each free animal
    if asked for, then one for each litter in each tank, then the floor of the extra tank.
    """

    def __init__(self, question: PlacementProblem) -> None:
        self.question = question
        self.scene, self.free = question.scene, question.free
        self.pairs = open_pairs(question)
        self.outside = 0 if question.wish == "move" else len(self.free)
        self.mates = mates_of(question, self.pairs)
        self.columns = len(self.pairs.animal) + self.outside + len(self.mates.cost)
        self.floor_column = self.columns if question.wish == "build" else None
        self.columns += question.wish == "build"

    @property
    def homeless(self) -> bool:
        """Whether an animal has no tank open to it and may not leave the house."""
        return not self.outside and len(np.unique(self.pairs.animal)) < len(self.free)

    @property
    def leaves_home(self) -> Bools:
        """Which pairs are moves."""
        moved: Bools = self.scene.home[self.free[self.pairs.animal]] != self.pairs.tank
        return moved

    @property
    def costs(self) -> Array:
        """What each unknown costs: the first wish outweighs the second."""
        costs = np.zeros(self.columns)
        pairs = len(self.pairs.animal)
        if self.question.wish == "build":
            costs[-1] = 1.0
            return costs
        costs[:pairs] = self.leaves_home * self.weight
        costs[pairs : pairs + self.outside] = len(self.free) + 1.0
        costs[pairs + self.outside :] = self.mates.cost
        return costs

    @property
    def weight(self) -> float:
        """What one move costs, where a split litter costs 1."""
        return 1.0 if self.question.wish == "sell" else float(self.mates.cost.sum()) + 1.0

    @property
    def whole(self) -> NDArray[np.uint8]:
        """Which unknowns are whole numbers: all but the floor of the extra tank."""
        whole = np.ones(self.columns, dtype=np.uint8)
        if self.floor_column is not None:
            whole[self.floor_column] = 0
        return whole

    @property
    def highest(self) -> Array:
        """The greatest value of each unknown; the floor is counted in square metres."""
        highest = np.ones(self.columns)
        if self.question.wish == "sell":
            start = len(self.pairs.animal)
            highest[start : start + self.outside] = self.scene.sellable[self.free]
        if self.floor_column is not None:
            highest[self.floor_column] = np.inf
        return highest

    def constraint(self) -> LinearConstraint:
        """Put all rows together."""
        parts = [self._somewhere(), self._capacity(), *self._clashes(), self._litters()]
        if self.floor_column is not None:
            parts += self._extra_tank(self.floor_column)
        if self.question.least and self.question.wish == "move":
            parts.append(self._at_least())
        offsets = np.cumsum([0, *[len(p.lower) for p in parts]])
        row = np.concatenate([p.row + o for p, o in zip(parts, offsets, strict=False)])
        column = np.concatenate([p.column for p in parts])
        value = np.concatenate([p.value for p in parts])
        matrix = coo_array((value, (row, column)), shape=(int(offsets[-1]), self.columns))
        lower = np.concatenate([p.lower for p in parts])
        return LinearConstraint(matrix.tocsr(), lower, np.concatenate([p.upper for p in parts]))

    def answer(self, x: Array, bound: float | None, *, proved: bool) -> Answer:
        """Read the solution."""
        chosen = np.flatnonzero(x[: len(self.pairs.animal)] > CHOSEN)
        tank = np.full(
            len(self.free), len(self.scene.tanks) if self.question.wish == "build" else -1
        )
        tank[self.pairs.animal[chosen]] = self.pairs.tank[chosen]
        moves = int(self.leaves_home[chosen].sum())
        sold = int((tank < 0).sum())
        splits = float(x[-len(self.mates.cost) :] @ self.mates.cost) if len(self.mates.cost) else 0
        floor = float(x[-1]) * 1e6 if self.question.wish == "build" else 0.0
        return Answer(
            "best" if proved else "found",
            tuple(tank.tolist()),
            moves,
            round(splits) if self.question.wish == "move" else 0,
            sold,
            floor,
            self._bound(bound or 0.0),
        )

    def _bound(self, bound: float) -> float:
        if self.question.wish == "build":
            return bound * 1e6
        unit = self.weight if self.question.wish == "move" else len(self.free) + 1.0
        spare = float(self.mates.cost.sum()) if self.question.wish == "move" else len(self.free)
        return max(ceil((bound - spare) / unit - 1e-6), 0)

    def _somewhere(self) -> PlacementRows:
        """Every free animal is in one place."""
        pairs, animals = len(self.pairs.animal), len(self.free)
        outside = np.arange(self.outside)
        row = np.concatenate([self.pairs.animal, outside])
        column = np.arange(pairs + self.outside)
        return PlacementRows(row, column, np.ones(len(row)), np.ones(animals), np.ones(animals))

    def _capacity(self) -> PlacementRows:
        """Discs on the floor of a tank, beside those of the animals that stay there."""
        used = np.unique(self.pairs.tank)
        area = pair_mm2(self.question, self.pairs) / 1e6
        left = left_mm2(self.question)[used] / 1e6
        finite = np.where(np.isfinite(left), left * (1 + SLACK), 1e9)
        row = np.searchsorted(used, self.pairs.tank)
        return PlacementRows(row, np.arange(len(row)), area, np.full(len(used), -np.inf), finite)

    def _clashes(self) -> list[PlacementRows]:
        """Animals too unlike in size are not put together, in any tank."""
        later = self.question.later
        unlike = np.array([later.clash(row, self.free) for row in self.free.tolist()])
        places = [np.flatnonzero(self.pairs.tank == t) for t in np.unique(self.pairs.tank)]
        rows = [not_together(columns, self.pairs.animal[columns], unlike) for columns in places]
        if self.question.wish == "build":
            animals = np.arange(len(self.free))
            rows.append(not_together(len(self.pairs.animal) + animals, animals, unlike))
        return rows

    def _litters(self) -> PlacementRows:
        return self.mates.rows(len(self.pairs.animal) + self.outside)

    def _extra_tank(self, floor: int) -> list[PlacementRows]:
        """Make the extra tank large enough for all it takes, and for the largest of them."""
        columns = len(self.pairs.animal) + np.arange(self.outside)
        limits, rows = self.scene.limits, np.arange(self.outside)
        area = self.scene.disc_mm2[self.free] / 1e6
        largest = (
            limits.widths_across * limits.widths_along * (self.scene.large_mm[self.free] ** 2) / 1e6
        )
        none, zero = np.full(1, -np.inf), np.zeros(1)
        total = PlacementRows(
            np.zeros(self.outside + 1, dtype=np.intp),
            np.append(columns, floor),
            np.append(area, -limits.load),
            none,
            zero,
        )
        each = PlacementRows(
            np.concatenate([rows, rows]),
            np.concatenate([columns, np.full(self.outside, floor)]),
            np.concatenate([largest, -np.ones(self.outside)]),
            np.full(self.outside, -np.inf),
            np.zeros(self.outside),
        )
        return [total, each]

    def _at_least(self) -> PlacementRows:
        """Say the proved least number of moves: it shortens the proof."""
        column = np.flatnonzero(self.leaves_home)
        ones = np.ones(len(column))
        least = np.array([float(self.question.least)])
        return PlacementRows(
            np.zeros(len(column), dtype=np.intp), column, ones, least, np.full(1, np.inf)
        )
