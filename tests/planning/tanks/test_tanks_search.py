"""How a housing problem is answered: what is proved, and for whom."""

import numpy as np
from hypothesis import given, settings
from plain_house import TODAY, arrangements, box, crowded, house, houses, still

from colony.planning.tanks.limits import DEFAULT_LIMITS
from colony.planning.tanks.placement import DEFAULT_EFFORT, SolverEffort
from colony.planning.tanks.placement_problem import PlacementProblem
from colony.planning.tanks.search import fewest_moves, fewest_sales
from colony.planning.tanks.week import house_week

Drawn = tuple[list[tuple[int, int, int]], list[tuple[int, int]]]


@settings(max_examples=50, deadline=None)
@given(houses | crowded)
def test_the_bound_is_never_above_the_best(drawn: Drawn) -> None:
    """Whatever was found, no arrangement has fewer moves than the bound, nor any if impossible."""
    tanks, swimmers = house(drawn)
    week = house_week(tanks, swimmers, DEFAULT_LIMITS, begins=TODAY)
    broken = np.flatnonzero(np.isin(week.home, week.broken()))
    if not len(broken):
        return
    found = fewest_moves(PlacementProblem(week, broken), DEFAULT_EFFORT, thorough=True)
    best = min((moves for moves, _, _ in arrangements(tanks, swimmers)), default=None)
    if best is None:
        assert not found.answer.tank
        return
    assert not found.impossible
    assert found.bound <= best <= found.answer.moves


def test_a_hurried_answer_proves_nothing_it_has_not_tried() -> None:
    """Without time for the solver, a tank that cannot be mended is not called impossible."""
    tanks, crowd = [box("A", 800, 500)], [still(f"p{n}", "A", 170) for n in range(8)]
    week = house_week(tanks, crowd, DEFAULT_LIMITS, begins=TODAY)
    asked = PlacementProblem(week, np.arange(8))
    hurried = fewest_moves(asked, SolverEffort(0.0, 0), thorough=True)
    assert (hurried.impossible, hurried.answer.status) == (False, "unknown")
    assert fewest_moves(asked, DEFAULT_EFFORT, thorough=True).impossible


def test_the_fewest_sales_are_proved_where_the_house_is_small() -> None:
    """Three of eight must go by their discs, and the solver proves that two are not enough."""
    tanks, crowd = [box("A", 800, 500)], [still(f"p{n}", "A", 170) for n in range(8)]
    week = house_week(tanks, crowd, DEFAULT_LIMITS, begins=TODAY)
    found = fewest_sales(PlacementProblem(week, np.arange(8)), DEFAULT_EFFORT)
    assert (found.answer.sold, found.bound) == (3, 3)
