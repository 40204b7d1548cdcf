"""Moves and sales that must be."""

from hypothesis import given, settings
from plain_house import TODAY, arrangements, house, houses

from colony.planning.tanks.bounds import fewest_leaving, fewest_sold
from colony.planning.tanks.limits import DEFAULT_LIMITS
from colony.planning.tanks.week import house_week


@settings(max_examples=60, deadline=None)
@given(houses)
def test_the_bounds_never_say_too_many(
    drawn: tuple[list[tuple[int, int, int]], list[tuple[int, int]]],
) -> None:
    """No arrangement moves or sells fewer animals than the bounds claim must go."""
    tanks, swimmers = house(drawn)
    week = house_week(tanks, swimmers, DEFAULT_LIMITS, begins=TODAY)
    best = min((m for m, _, _ in arrangements(tanks, swimmers)), default=None)
    if best is None:
        return
    assert sum(fewest_leaving(week, tank) for tank in week.broken().tolist()) <= best
    assert fewest_sold(week) == 0
