"""The work before animals leave, back from the day."""

from datetime import date, timedelta

from colony.planning.orders.shipping import LONGEST_HOURS, STEPS, long_journey, work_before


def test_the_work_is_counted_back_from_the_day() -> None:
    """The first first; what should have been done already is for today."""
    leaves = date(2026, 3, 20)
    work = work_before(leaves, date(2026, 3, 1))
    assert [(leaves - step.on).days for step in work] == [days for days, _ in STEPS]
    late = work_before(leaves, leaves - timedelta(days=1))
    assert min(step.on for step in late) == leaves - timedelta(days=1)
    assert late[-1].on == leaves


def test_a_very_long_journey_is_asked_about() -> None:
    """Two days on the way are the most that nothing is said of."""
    assert long_journey(LONGEST_HOURS) is None
    assert "49 hours" in (long_journey(LONGEST_HOURS + 1) or "")
