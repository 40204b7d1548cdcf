"""Cumulative sums held to a drift that was put in, and to simulated houses that have none."""

from datetime import date, timedelta
from random import Random

import pytest

from colony.planning.alarms.drift import BASELINE, DECISION, DRIFTING, SLACK, drift

DAY = date(2026, 1, 1)


def series(values: list[float]) -> list[tuple[date, float]]:
    """One test a week."""
    return [(DAY + timedelta(weeks=n), value) for n, value in enumerate(values)]


def test_a_sum_is_that_of_page_worked_by_hand() -> None:
    """Baseline 0 and 2 in turn (mean 1, deviation 1.026); then 3.5 sums 1.937 a test: the fifth."""
    base = [0.0, 2.0] * (BASELINE // 2)
    assert (SLACK, DECISION) == (0.5, 8.0)
    assert drift(series([*base, *[3.5] * 4]), least_spread=0.1) is None
    found = drift(series([*base, *[3.5] * 5]), least_spread=0.1)
    assert found is not None
    assert (found.since, found.way, found.usual) == (DAY + timedelta(weeks=20), "up", 1.0)
    assert found.now == pytest.approx(3.5)
    down = drift(series([*base, *[-1.5] * 5]), least_spread=0.1)
    assert down is not None
    assert down.way == "down"


def test_few_tests_say_nothing_and_a_return_ends_it() -> None:
    """Twenty are the baseline; a value that comes back to what is usual is no drift any more."""
    assert drift(series([9.0] * BASELINE), least_spread=0.1) is None
    back = [0.0, 2.0] * 10 + [4.0] * 4 + [1.0] * 30
    assert drift(series(back), least_spread=0.1) is None


def test_what_is_within_the_error_of_the_test_is_no_drift() -> None:
    """Twenty equal values do not make the next hundredth a drift."""
    assert drift(series([7.0] * 20 + [7.05] * 20), least_spread=DRIFTING["ph"]) is None


def test_false_alarms_of_houses_without_a_drift_are_as_rare_as_is_said() -> None:
    """A year of weekly tests in 1,000 simulated waters: 6 % are alarmed, as docs/care.md says."""
    random, alarmed = Random(7), 0  # noqa: S311 - a simulation
    for _ in range(1000):
        values = [random.gauss(7.0, 0.2) for _ in range(52)]
        alarmed += any(drift(series(values[:n]), least_spread=0.1) for n in range(BASELINE + 1, 53))
    assert 0.04 < alarmed / 1000 < 0.08


def test_a_drift_of_one_deviation_is_found_within_weeks() -> None:
    """Put in at the twenty-first test of 400 waters: half are found within sixteen tests."""
    random, waited = Random(11), []  # noqa: S311 - a simulation
    for _ in range(400):
        values = [random.gauss(7.0, 0.2) for _ in range(20)]
        values += [random.gauss(7.2, 0.2) for _ in range(60)]
        found = (n for n in range(21, 81) if drift(series(values[:n]), least_spread=0.1))
        waited.append(next(found, 80) - 20)
    assert 13 <= sorted(waited)[200] <= 19
