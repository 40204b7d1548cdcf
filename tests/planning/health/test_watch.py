"""Clocks of isolation and maturing, refusals in a row, measures that stand still."""

from datetime import date, timedelta

from colony.planning.health.watch import Refusing, Still, refusals_in_a_row, standing_still
from colony.planning.pups.feeding import FoodOffered

TODAY = date(2025, 3, 10)


def ago(days: int) -> date:
    """Count days back from today."""
    return TODAY - timedelta(days=days)


def test_only_days_on_which_nothing_was_taken_count_as_refused() -> None:
    """A day with one food taken breaks the row; the row is counted from the last feeding back."""
    fed = [
        FoodOffered(ago(6), "worm", took=False),
        FoodOffered(ago(5), "worm", took=True),
        FoodOffered(ago(4), "worm", took=False),
        FoodOffered(ago(2), "worm", took=False),
        FoodOffered(ago(2), "prawn", took=False),
    ]
    assert refusals_in_a_row(fed) == Refusing(2, ago(4))
    assert refusals_in_a_row([*fed, FoodOffered(ago(2), "smelt", took=True)]) is None
    assert refusals_in_a_row([]) is None


def test_a_width_that_gains_nothing_in_six_weeks_stands_still() -> None:
    """Measured against the last width at least that old; a younger pup is not judged yet."""
    widths = [(ago(60), 140.0), (ago(45), 150.0), (ago(20), 151.0), (ago(2), 151.0)]
    assert standing_still(widths, 42, 2) == Still(ago(45), ago(2), 1.0)
    assert standing_still(widths, 42, 1) is None
    assert standing_still(widths[-2:], 42, 2) is None
    assert standing_still([], 42, 2) is None
