"""The quick answer: it keeps every limit, and sells only where it may."""

import numpy as np
from hypothesis import given, settings
from plain_house import TODAY, box, crowded, house, houses, kept, still

from colony.planning.tanks.limits import DEFAULT_LIMITS
from colony.planning.tanks.packing import SOLD, pack
from colony.planning.tanks.placement import place
from colony.planning.tanks.placement_problem import PlacementProblem
from colony.planning.tanks.week import house_week, moved

Drawn = tuple[list[tuple[int, int, int]], list[tuple[int, int]]]


@settings(max_examples=80, deadline=None)
@given(houses | crowded)
def test_what_is_packed_keeps_the_limits_and_never_beats_the_exact_answer(drawn: Drawn) -> None:
    """A packed answer is an arrangement like any other, so none has fewer moves than the best."""
    tanks, swimmers = house(drawn)
    week = house_week(tanks, swimmers, DEFAULT_LIMITS, begins=TODAY)
    if not swimmers:
        return
    problem = PlacementProblem(week, np.arange(len(swimmers)))
    packed, best = pack(problem), place(problem)
    if packed.status != "found":
        assert packed.tank == ()
        return
    to = {s.tag: tanks[n].code for s, n in zip(swimmers, packed.tank, strict=True)}
    assert kept(tanks, moved(swimmers, to), TODAY)
    assert packed.moves >= best.moves


def test_nobody_is_sold_unasked() -> None:
    """Three that find no room are no answer to moving, and three sales where selling is asked."""
    week = house_week(
        [box("A", 800, 500)],
        [still(f"p{n}", "A", 170) for n in range(8)],
        DEFAULT_LIMITS,
        begins=TODAY,
    )
    asked = PlacementProblem(week, np.arange(8))
    assert pack(asked).status == "unknown"
    sold = pack(PlacementProblem(week, np.arange(8), means="sell"))
    assert (sold.status, sold.sold, sold.tank.count(SOLD)) == ("found", 3, 3)
