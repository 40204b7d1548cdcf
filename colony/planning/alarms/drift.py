"""Slow drifts of a tested value, by a cumulative sum (Page 1954, Continuous inspection schemes).

Each value is held against the mean of the first tests of its row, in their standard deviations;
what lies more than `SLACK` beyond it adds up, either way, and `DECISION` is a drift. The usual
decision of 5 is for a mean and a deviation that are known; estimated from `BASELINE` tests it
alarmed 21 % of simulated waters without a drift within a year of weekly tests, 8 alarms 6 %
(`tests/planning/alarms/test_drift.py` measures it).
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from statistics import mean, stdev
from typing import Literal

BASELINE = 20
"""So many tests say what is usual; fewer say nothing of a drift."""

SLACK, DECISION = 0.5, 8.0
"""In standard deviations: half the drifts of one are found within 16 tests, of two within 6."""

DRIFTING: Mapping[str, float] = {
    "temperature_c": 0.3,
    "ph": 0.1,
    "oxygen_mg_l": 0.3,
    "conductivity_us_cm": 20,
    "alkalinity_dkh": 0.5,
}
"""What drifts slowly, and what its test is unsure by; common practice, no source. What rises and
falls with each change of water, such as nitrate, has a plan of its own."""


@dataclass(frozen=True)
class Drift:
    """A value that drifts: since when, which way, and from what it was to what it is."""

    since: date
    way: Literal["up", "down"]
    usual: float
    now: float


def drift(tests: Sequence[tuple[date, float]], *, least_spread: float) -> Drift | None:
    """Find a drift that lasts still in the tests of one parameter of one water, in order of day.

    Parameters
    ----------
    tests
        Day and value.
    least_spread
        The least standard deviation that is believed: what the test itself is unsure by.
    """
    if len(tests) <= BASELINE:
        return None
    first = [value for _, value in tests[:BASELINE]]
    usual, spread = mean(first), max(stdev(first), least_spread)
    up = down = 0.0
    up_since = down_since = tests[BASELINE][0]
    for day, value in tests[BASELINE:]:
        z = (value - usual) / spread
        if up == 0.0:
            up_since = day
        if down == 0.0:
            down_since = day
        up, down = max(0.0, up + z - SLACK), max(0.0, down - z - SLACK)
    if max(up, down) < DECISION:
        return None
    since, way = (up_since, "up") if up >= down else (down_since, "down")
    last = [value for day, value in tests if day >= since]
    return Drift(since, way, usual, mean(last))  # type: ignore[arg-type]
