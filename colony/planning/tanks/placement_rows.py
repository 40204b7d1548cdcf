"""The parts of a housing question: open pairs of animal and tank, floor left, litters."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

import numpy as np

from colony.planning.tanks.week import SLACK, Array, Bools, HouseWeek, Index

Wish = Literal["move", "sell", "build"]


@dataclass(frozen=True)
class PlacementProblem:
    """Which animals are free to be moved, and what may be done beside moving.

    `wish` is "move" (move only: fewest moved, then litter-mates together), "sell" (fewest
    sold, then fewest moved), or "build" (smallest extra tank). `least` is a proved number of
    moves below which no answer lies. With `ahead`, the same scene on a later day, a tank that
    is in order and takes animals in must stay in order until then. `closed_tanks` take
    nobody in, to keep the question small.
    """

    scene: HouseWeek
    free: Index
    wish: Wish = "move"
    least: int = 0
    ahead: HouseWeek | None = None
    closed_tanks: tuple[int, ...] = ()

    @property
    def later(self) -> HouseWeek:
        """The scene that tanks which take animals in are judged by."""
        return self.ahead or self.scene


@dataclass(frozen=True)
class PlacementPairs:
    """The open pairs of a free animal (its place in `free`) and a tank."""

    animal: Index
    tank: Index


@dataclass(frozen=True)
class PlacementRows:
    """Rows of the model: coefficients in coordinate form, at most `upper`, at least `lower`."""

    row: Index
    column: Index
    value: Array
    lower: Array
    upper: Array


@dataclass(frozen=True)
class Mates:
    """One unknown for each litter and tank: whether any of the litter's free pups is there.

    `pair` and `litter_tank` say which pairs belong to which unknown. It costs 1 unless a
    litter-mate that is not moved is there already.
    """

    pair: Index
    litter_tank: Index
    cost: Array

    def rows(self, start: int) -> PlacementRows:
        """Count a litter in a tank as soon as one of its pups is; `start` is its first column."""
        rows = np.arange(len(self.pair))
        return PlacementRows(
            np.concatenate([rows, rows]),
            np.concatenate([self.pair, start + self.litter_tank]),
            np.concatenate([np.ones(len(rows)), -np.ones(len(rows))]),
            np.full(len(rows), -np.inf),
            np.zeros(len(rows)),
        )


def not_together(columns: Index, animals: Index, unlike: Bools) -> PlacementRows:
    """Forbid each unknown of one tank beside any whose animal is unlike its own."""
    here = unlike[np.ix_(animals, animals)]
    row, other = np.nonzero(here)
    counts = here.sum(axis=1)
    crowded = np.flatnonzero(counts)
    place = np.searchsorted(crowded, row)
    return PlacementRows(
        np.concatenate([place, np.arange(len(crowded))]),
        np.concatenate([columns[other], columns[crowded]]),
        np.concatenate([np.ones(len(other)), counts[crowded].astype(float)]),
        np.full(len(crowded), -np.inf),
        counts[crowded].astype(float),
    )


def left_mm2(question: PlacementProblem) -> Array:
    """Find the floor that the animals which stay leave for others, by tank."""
    scene, later = question.scene, question.later
    fixed = np.ones(len(scene.swimmers), dtype=bool)
    fixed[question.free] = False
    left_by_some = np.isin(scene.home, scene.home[question.free])
    disc = np.where(left_by_some, scene.disc_mm2, later.disc_mm2)
    taken = np.bincount(scene.home[fixed], disc[fixed], len(scene.tanks))
    left: Array = scene.capacity_mm2 - taken
    return left


def pair_mm2(question: PlacementProblem, pairs: PlacementPairs) -> Array:
    """Find the disc area of each pair: the later one for an animal that is moved."""
    animal = question.free[pairs.animal]
    stays = question.scene.home[animal] == pairs.tank
    area: Array = np.where(stays, question.scene.disc_mm2[animal], question.later.disc_mm2[animal])
    return area


def open_pairs(question: PlacementProblem) -> PlacementPairs:
    """Find every tank that could take each free animal, were it the only one moved there."""
    scene, later, free = question.scene, question.later, question.free
    at_home = scene.home[free][:, None] == np.arange(len(scene.tanks))[None, :]
    opened = np.where(at_home, ~scene.must_go[free][:, None], later.may_go[free])
    opened[:, list(question.closed_tanks)] &= at_home[:, list(question.closed_tanks)]
    disc = np.where(at_home, scene.disc_mm2[free][:, None], later.disc_mm2[free][:, None])
    opened &= disc <= left_mm2(question)[None, :] * (1 + SLACK)
    fixed = np.setdiff1d(np.arange(len(scene.swimmers)), free)
    for tank in np.unique(scene.home[fixed]).tolist():
        there = fixed[scene.home[fixed] == tank]
        judged = scene if tank in scene.home[free] else later
        _close_to_the_unlike(opened[:, tank], judged, free, there)
    animal, tank = np.nonzero(opened)
    return PlacementPairs(animal, tank)


def _close_to_the_unlike(column: Bools, scene: HouseWeek, free: Index, there: Index) -> None:
    """Close a tank to animals too unlike in size to those that stay in it."""
    there = there[scene.small_mm[there] > 0]
    if not len(there):
        return
    times = scene.limits.size_spread * (1 + SLACK)
    alike = (scene.large_mm[free] <= times * scene.small_mm[there].min()) & (
        scene.large_mm[there].max() <= times * scene.small_mm[free]
    )
    for one in np.flatnonzero(column & ~alike).tolist():
        column[one] = not bool(scene.clash(int(free[one]), there).any())


def mates_of(question: PlacementProblem, pairs: PlacementPairs) -> Mates:
    """Find the litters whose pups could be parted, and the tanks each could be in."""
    scene, free = question.scene, question.free
    names = [s.litter for s in scene.swimmers]
    fixed = set(range(len(names))) - set(free.tolist())
    beside = {(names[n], int(scene.home[n])) for n in fixed if names[n]}
    shared = _shared_litters([names[n] for n in free.tolist()], {name for name, _ in beside})
    keys: dict[tuple[str, int], int] = {}
    pair, column = [], []
    for n, (animal, tank) in enumerate(
        zip(pairs.animal.tolist(), pairs.tank.tolist(), strict=True)
    ):
        litter = names[int(free[animal])]
        if question.wish == "move" and litter in shared:
            pair.append(n)
            column.append(keys.setdefault((litter, tank), len(keys)))
    cost = np.array([0.0 if key in beside else 1.0 for key in keys])
    return Mates(np.array(pair, dtype=np.intp), np.array(column, dtype=np.intp), cost)


def _shared_litters(free: Sequence[str], fixed: set[str]) -> set[str]:
    return {name for name in free if name and (free.count(name) > 1 or name in fixed)}
