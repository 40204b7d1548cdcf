"""The parts of a housing problem: open tanks, floor left, litter-mates."""

from dataclasses import replace

import numpy as np
import pytest
from plain_house import TODAY, box, still

from colony.planning.solver.model import LinearModel
from colony.planning.tanks.limits import DEFAULT_LIMITS
from colony.planning.tanks.load import disc_mm2
from colony.planning.tanks.placement_problem import (
    PlacementProblem,
    left_mm2,
    mates_of,
    open_pairs,
    put_not_together,
)
from colony.planning.tanks.week import house_week

TANKS = [box("A"), box("B", 2000, 1000), box("C", 600, 300)]


def problem() -> PlacementProblem:
    """Two litter-mates in A, one of them free; a free stranger and a large resident in B."""
    animals = [
        still("mate", "A", 150, litter="L1"),
        still("free", "A", 160, litter="L1"),
        still("stranger", "B", 170),
        still("large", "B", 330),
    ]
    week = house_week(TANKS, animals, DEFAULT_LIMITS, begins=TODAY)
    return PlacementProblem(week, np.array([1, 2]))


def test_open_tanks_are_those_that_keep_the_limits() -> None:
    """C is too small for either; B holds one more than twice as wide as the free mate."""
    pairs = open_pairs(problem())
    assert list(zip(pairs.animal.tolist(), pairs.tank.tolist(), strict=True)) == [
        (0, 0), (1, 0), (1, 1),
    ]  # fmt: skip
    closed = open_pairs(replace(problem(), closed_tanks=(0,)))
    assert list(zip(closed.animal.tolist(), closed.tank.tolist(), strict=True)) == [(0, 0), (1, 1)]


def test_the_floor_left_is_what_those_who_stay_leave() -> None:
    """A bears 30 % of 0.5 m2, less the disc of the mate that stays."""
    left = left_mm2(problem())
    assert left[0] == pytest.approx(0.30 * 500_000 - disc_mm2(150))
    assert left[2] == pytest.approx(0.30 * 180_000)


def test_a_litter_costs_nothing_where_a_mate_is_already() -> None:
    """Of the mates only A is open, where one stays: no unknown of theirs costs a split."""
    asked = problem()
    mates = mates_of(asked, open_pairs(asked))
    assert (mates.pair.tolist(), mates.litter_tank.tolist()) == ([0], [0])
    assert mates.cost.tolist() == [0.0]


def test_the_unlike_are_not_put_together() -> None:
    """The rows allow each alone and the two that are alike, and forbid the unlike pair."""
    model = LinearModel()
    columns = model.add_variables(3)
    unlike = np.array([[False, False, True], [False, False, False], [True, False, False]])
    put_not_together(model, columns, np.arange(3), unlike)
    row, variable, factor = model.terms
    _, high = model.row_bounds
    for chosen, allowed in (([1, 1, 0], True), ([0, 1, 1], True), ([1, 0, 1], False)):
        sums = np.bincount(row, factor * np.array(chosen)[variable], model.rows)
        assert bool((sums <= high).all()) is allowed
