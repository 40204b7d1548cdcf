"""What wants water, day by day."""

from colony.planning.water.demand import Demand, Routine, Urgent


def test_full_speed_lays_so_much_a_day_and_no_more_than_is_wanted() -> None:
    """600 L at 250 L a day: 250, 500, then all."""
    need = Urgent("S1", 600, 250, rank=1)
    assert [need.wanted_by(day) for day in range(4)] == [250, 500, 600, 600]


def test_an_urgent_change_may_be_laid_until_its_last_day() -> None:
    """Without a last day it is that of the plan; one beyond the plan does not lengthen it."""
    assert list(Urgent("S1", 1, 1, rank=1).days(3)) == [0, 1, 2]
    assert list(Urgent("S1", 1, 1, rank=1, last_day=1).days(3)) == [0, 1]
    assert list(Urgent("S1", 1, 1, rank=1, last_day=9).days(3)) == [0, 1, 2]


def test_the_changes_are_the_urgent_and_the_routine_ones() -> None:
    """Drips are no changes."""
    urgent, routine = Urgent("S1", 1, 1, rank=1), Routine("S2", 1, 0, 1, 1)
    assert Demand(5, (urgent,), (routine,)).changes == (urgent, routine)
