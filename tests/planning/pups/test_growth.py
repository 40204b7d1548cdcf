"""The belief in one pup's curve, and its forecast."""

from datetime import date, timedelta
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from colony.planning.pups.growth import (
    GrowthPrior,
    Width,
    first_curve,
    forecast,
    reach,
)

BORN = date(2024, 1, 1)
FEMALE = GrowthPrior(763.06, 0.12, birth_mm=149)
widths_mm = st.floats(80, 700)


@given(widths_mm, st.floats(0.05, 3), st.integers(0, 3000), st.integers(0, 3000))
def test_no_forecast_shrinks_a_pup(width: float, rate: float, day: int, more: int) -> None:
    """Width, low and high bound of a later day are never less than those of an earlier one."""
    curve = first_curve([Width(BORN, width)], GrowthPrior(536, rate), born=None)
    assert curve is not None
    now, later = (forecast(curve, BORN + timedelta(days=d)) for d in (day, day + more))
    assert now.low_mm <= now.width_mm <= now.high_mm
    assert now.width_mm <= later.width_mm
    assert now.low_mm <= later.low_mm
    assert now.high_mm <= later.high_mm


def test_a_pup_that_was_never_measured_starts_from_its_birth() -> None:
    """Without a width the species' birth width stands in, with a wider interval."""
    unmeasured = first_curve([], FEMALE, born=BORN)
    measured = first_curve([Width(BORN, 149)], FEMALE, born=BORN)
    assert unmeasured is not None
    assert measured is not None
    blind, seen = forecast(unmeasured, BORN), forecast(measured, BORN)
    assert blind.high_mm - blind.low_mm > seen.high_mm - seen.low_mm
    assert blind.width_mm == 149
    assert first_curve([], FEMALE, born=None) is None


def test_the_interval_holds_four_fifths_of_a_normal() -> None:
    """On the day of measuring it is the error's own 80 % interval: 1.2816 standard deviations."""
    curve = first_curve([Width(BORN, 149)], FEMALE, born=None, error_mm=10)
    assert curve is not None
    now = forecast(curve, BORN)
    assert now.low_mm == pytest.approx(149 - 12.816, abs=0.8)
    assert now.high_mm == pytest.approx(149 + 12.816, abs=0.8)


def test_reaching_a_width_takes_longer_for_a_greater_one() -> None:
    """The three dates of a reach stand in order and move with the width asked for."""
    curve = first_curve([Width(BORN, 149)], FEMALE, born=None)
    assert curve is not None
    found = [reach(curve, wanted) for wanted in (140, 160, 200, 300)]
    assert found[0].likely == BORN
    dates = [[day or date.max for day in (r.low, r.likely, r.high)] for r in found]
    assert all(three == sorted(three) for three in dates)
    for one, two in pairwise(dates):
        assert all(sooner <= later for sooner, later in zip(one, two, strict=True))
    assert reach(curve, 5000).high is None
