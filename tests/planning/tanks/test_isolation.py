"""The clocks of isolation and of a new filter."""

from datetime import date, timedelta

from hypothesis import given, settings
from hypothesis import strategies as st

from colony.planning.tanks.isolation import Stay, isolation_clock, mature_from

TODAY = date(2025, 3, 10)


def ago(days: int) -> date:
    """Count days back from today."""
    return TODAY - timedelta(days=days)


def test_adding_an_animal_starts_isolation_again() -> None:
    """Thirty days from the newest arrival, whoever came before; a birth does not count."""
    clock = isolation_clock([Stay("old", ago(25)), Stay("new", ago(3))], 30)
    assert clock is not None
    assert (clock.since, clock.until, clock.restarted_by) == (
        ago(3),
        TODAY + timedelta(days=27),
        ("new",),
    )
    born = isolation_clock([Stay("dam", ago(10)), Stay("pup", ago(1), born_there=True)], 30)
    assert born is not None
    assert born.since == ago(10)
    assert isolation_clock([], 30) is None


@settings(deadline=None)
@given(st.lists(st.integers(0, 100), min_size=1), st.integers(0, 100))
def test_one_more_arrival_never_ends_isolation_sooner(days: list[int], more: int) -> None:
    """Whoever is added, the clock runs at least as long as before."""
    stays = [Stay(f"r{n}", ago(day)) for n, day in enumerate(days)]
    before = isolation_clock(stays, 30)
    after = isolation_clock([*stays, Stay("more", ago(more))], 30)
    assert before is not None
    assert after is not None
    assert after.until >= before.until


def test_a_new_filter_matures_in_weeks() -> None:
    """Six weeks (common practice, no source) from the day it was started."""
    assert mature_from(date(2025, 1, 1), 6) == date(2025, 2, 12)
