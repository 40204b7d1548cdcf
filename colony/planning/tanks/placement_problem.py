"""The parts of a housing problem: open pairs of animal and tank, floor left, litters."""

from collections import Counter
from dataclasses import dataclass
from typing import Literal

import numpy as np

from colony.planning.arrays import Bools, Floats, Index
from colony.planning.solver.model import LinearModel
from colony.planning.tanks.week import SLACK, HouseWeek

Means = Literal["move", "sell", "build"]


@dataclass(frozen=True)
class PlacementProblem:
    """Which animals are free to be moved, and what may be done beside moving.

    `means` is "move" (move only: fewest moved, then litter-mates together), "sell" (fewest
    sold, then fewest moved), or "build" (smallest extra tank). `least` is a proved number of
    moves below which no answer lies. With `ahead`, the same week on a later day, a tank that
    is in order and takes animals in must stay in order until then. `closed_tanks` take
    nobody in, to keep the problem small.
    """

    week: HouseWeek
    free: Index
    means: Means = "move"
    least: int = 0
    ahead: HouseWeek | None = None
    closed_tanks: tuple[int, ...] = ()

    @property
    def later(self) -> HouseWeek:
        """The week that tanks which take animals in are judged by."""
        return self.ahead or self.week


@dataclass(frozen=True)
class PlacementPairs:
    """The open pairs of a free animal (its place in `free`) and a tank."""

    animal: Index
    tank: Index


@dataclass(frozen=True)
class Mates:
    """One unknown for each litter and tank: whether any of the litter's free pups is there.

    `pair` and `litter_tank` say which pairs belong to which unknown. It costs 1 unless a
    litter-mate that is not moved is there already.
    """

    pair: Index
    litter_tank: Index
    cost: Floats

    def put(self, model: LinearModel, pairs: Index, litter_there: Index) -> None:
        """Count a litter in a tank as soon as one of its pups is."""
        rows = model.add_rows(len(self.pair), high=0.0) + np.arange(len(self.pair))
        model.put(rows, pairs[self.pair], 1.0)
        model.put(rows, litter_there[self.litter_tank], -1.0)


def put_not_together(model: LinearModel, columns: Index, animals: Index, unlike: Bools) -> None:
    """Forbid each unknown of one tank beside any whose animal is unlike its own."""
    here = unlike[np.ix_(animals, animals)]
    row, other = np.nonzero(here)
    counts = here.sum(axis=1)
    crowded = np.flatnonzero(counts)
    most = counts[crowded].astype(float)
    first = model.add_rows(len(crowded), high=most)
    model.put(first + np.searchsorted(crowded, row), columns[other], 1.0)
    model.put(first + np.arange(len(crowded)), columns[crowded], most)


def left_mm2(problem: PlacementProblem) -> Floats:
    """Find the floor that the animals which stay leave for others, by tank."""
    week, later = problem.week, problem.later
    fixed = np.ones(len(week.swimmers), dtype=bool)
    fixed[problem.free] = False
    left_by_some = np.isin(week.home, week.home[problem.free])
    disc = np.where(left_by_some, week.disc_mm2, later.disc_mm2)
    used = np.bincount(week.home[fixed], disc[fixed], len(week.tanks))
    left: Floats = week.capacity_mm2 - used
    return left


def pair_mm2(problem: PlacementProblem, pairs: PlacementPairs) -> Floats:
    """Find the disc area of each pair: the later one for an animal that is moved."""
    animal = problem.free[pairs.animal]
    stays = problem.week.home[animal] == pairs.tank
    area: Floats = np.where(stays, problem.week.disc_mm2[animal], problem.later.disc_mm2[animal])
    return area


def open_pairs(problem: PlacementProblem) -> PlacementPairs:
    """Find every tank that could take each free animal, were it the only one moved there."""
    week, later, free = problem.week, problem.later, problem.free
    at_home = week.home[free][:, None] == np.arange(len(week.tanks))[None, :]
    opened = np.where(at_home, ~week.home_closed[free][:, None], later.may_go[free])
    opened[:, list(problem.closed_tanks)] &= at_home[:, list(problem.closed_tanks)]
    disc = np.where(at_home, week.disc_mm2[free][:, None], later.disc_mm2[free][:, None])
    opened &= disc <= left_mm2(problem)[None, :] * (1 + SLACK)
    fixed = np.setdiff1d(np.arange(len(week.swimmers)), free)
    for tank in np.unique(week.home[fixed]).tolist():
        there = fixed[week.home[fixed] == tank]
        judged = week if tank in week.home[free] else later
        _close_to_the_unlike(opened[:, tank], judged, free, there)
    animal, tank = np.nonzero(opened)
    return PlacementPairs(animal, tank)


def _close_to_the_unlike(column: Bools, week: HouseWeek, free: Index, there: Index) -> None:
    """Close a tank to animals too unlike in size to those that stay in it."""
    there = there[week.small_mm[there] > 0]
    if not len(there):
        return
    times = week.limits.size_spread * (1 + SLACK)
    alike = (week.large_mm[free] <= times * week.small_mm[there].min()) & (
        week.large_mm[there].max() <= times * week.small_mm[free]
    )
    for number in np.flatnonzero(column & ~alike).tolist():
        column[number] = not bool(week.clash(int(free[number]), there).any())


def mates_of(problem: PlacementProblem, pairs: PlacementPairs) -> Mates:
    """Find the litters whose pups could be parted, and the tanks each could be in."""
    week, free = problem.week, problem.free
    names = [s.litter for s in week.swimmers]
    fixed = set(range(len(names))) - set(free.tolist())
    beside = {(names[n], int(week.home[n])) for n in fixed if names[n]}
    staying = {name for name, _ in beside}
    of_free = Counter(names[n] for n in free.tolist())
    shared = {name for name, n in of_free.items() if name and (n > 1 or name in staying)}
    keys: dict[tuple[str, int], int] = {}
    pair, column = [], []
    for n, (animal, tank) in enumerate(
        zip(pairs.animal.tolist(), pairs.tank.tolist(), strict=True)
    ):
        litter = names[int(free[animal])]
        if problem.means == "move" and litter in shared:
            pair.append(n)
            column.append(keys.setdefault((litter, tank), len(keys)))
    cost = np.array([0.0 if key in beside else 1.0 for key in keys])
    return Mates(np.array(pair, dtype=np.intp), np.array(column, dtype=np.intp), cost)
