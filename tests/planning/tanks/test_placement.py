"""Where animals go, exactly: each kind of question against every arrangement tried."""

import numpy as np
from hypothesis import given, settings
from plain_house import TODAY, arrangements, box, crowded, house, houses, kept, still

from colony.planning.tanks.limits import DEFAULT_LIMITS
from colony.planning.tanks.placement import SolverEffort, place
from colony.planning.tanks.placement_problem import PlacementProblem
from colony.planning.tanks.week import house_week, moved

Drawn = tuple[list[tuple[int, int, int]], list[tuple[int, int]]]


@settings(max_examples=60, deadline=None)
@given(houses | crowded)
def test_the_moves_are_the_fewest_or_there_are_none(drawn: Drawn) -> None:
    """With everybody free, the answer moves as few as any arrangement, or proves there is none."""
    tanks, swimmers = house(drawn)
    week = house_week(tanks, swimmers, DEFAULT_LIMITS, begins=TODAY)
    if not swimmers:
        return
    answer = place(PlacementProblem(week, np.arange(len(swimmers))))
    best = min((moves for moves, _, _ in arrangements(tanks, swimmers)), default=None)
    if best is None:
        assert answer.status == "impossible"
        return
    assert (answer.status, answer.moves) == ("best", best)
    to = {s.tag: tanks[n].code for s, n in zip(swimmers, answer.tank, strict=True)}
    assert kept(tanks, moved(swimmers, to), TODAY)


def test_selling_counts_the_fewest_that_make_room() -> None:
    """A tank of 0.5 m2 bears 0.15 m2 of discs: six of 170 mm (0.136 m2) stay, two of eight go."""
    tanks = [box("A", 800, 625)]
    crowd = [still(f"p{n}", "A", 170) for n in range(8)]
    week = house_week(tanks, crowd, DEFAULT_LIMITS, begins=TODAY)
    answer = place(PlacementProblem(week, np.arange(8), means="sell"))
    assert (answer.status, answer.sold, answer.moves, answer.bound) == ("best", 2, 0, 2)


def test_an_extra_tank_is_as_small_as_can_be() -> None:
    """Two of the eight go into it: by load 0.151 m2, by their width 2 x 4 x 0.17^2 = 0.231 m2."""
    tanks = [box("A", 800, 625)]
    crowd = [still(f"p{n}", "A", 170) for n in range(8)]
    week = house_week(tanks, crowd, DEFAULT_LIMITS, begins=TODAY)
    answer = place(PlacementProblem(week, np.arange(8), means="build"))
    assert abs(answer.floor_mm2 - 8 * 170**2) < 1
    assert answer.status == "best"


def test_no_seconds_are_no_trial() -> None:
    """Without time nothing is said, least of all that it is impossible."""
    week = house_week([box("A")], [still("p", "A", 170)], DEFAULT_LIMITS, begins=TODAY)
    answer = place(PlacementProblem(week, np.arange(1)), SolverEffort(seconds=0.0))
    assert answer.status == "unknown"
