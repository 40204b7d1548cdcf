"""A week of the house as arrays, held against the plain limits."""

from datetime import timedelta

import numpy as np
from hypothesis import given, settings
from plain_house import TODAY, box, growing, house, houses, still

from colony.planning.tanks.limits import DEFAULT_LIMITS, breaks
from colony.planning.tanks.occupancy import occupant, widths_on
from colony.planning.tanks.week import further, house_week, moved

Drawn = tuple[list[tuple[int, int, int]], list[tuple[int, int]]]


@settings(max_examples=100, deadline=None)
@given(houses)
def test_a_tank_is_broken_where_a_plain_limit_is(drawn: Drawn) -> None:
    """For animals that stand still the arrays say what the rules say, tank by tank."""
    tanks, swimmers = house(drawn)
    week = house_week(tanks, swimmers, DEFAULT_LIMITS, begins=TODAY)
    plain = [
        n
        for n, tank in enumerate(tanks)
        if breaks(
            tank, [occupant(s, s.disc_width_mm or 0) for s in swimmers if s.tank == tank.code]
        )
    ]
    assert week.broken().tolist() == plain


def test_large_counts_at_the_end_and_small_at_the_beginning() -> None:
    """A growing pup counts with its last width where large is bad, its first where small is."""
    pup = growing("p", "A", 150, 1.0)
    week = house_week([box("A")], [pup], DEFAULT_LIMITS, begins=TODAY)
    first, last = widths_on([pup], [TODAY, TODAY + timedelta(days=7)])[0].tolist()
    assert (week.small_mm.tolist(), week.large_mm.tolist()) == ([first], [last])
    assert first < last


def test_a_later_look_keeps_who_is_where_and_lets_them_grow() -> None:
    """In four weeks the pup is as wide as its curve says, in the same tank."""
    pup = growing("p", "A", 150, 1.0)
    week = house_week([box("A")], [pup], DEFAULT_LIMITS, begins=TODAY)
    later = further(week, 28)
    wide = widths_on([pup], [TODAY + timedelta(days=28)])[0, 0]
    assert later.large_mm.tolist() == [wide]
    assert later.home.tolist() == week.home.tolist()


def test_who_is_in_no_known_tank_is_not_in_the_week() -> None:
    """An animal of a tank that is not among these is left out; moved into one, it is there."""
    stray = still("p", "elsewhere", 150)
    assert house_week([box("A")], [stray], DEFAULT_LIMITS, begins=TODAY).swimmers == ()
    week = house_week([box("A")], moved([stray], {"p": "A"}), DEFAULT_LIMITS, begins=TODAY)
    assert np.array_equal(week.residents(0), [0])
