"""Forecasts of many animals at once."""

from datetime import date, timedelta

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from colony.planning.pups.growth import Curve, forecast
from colony.planning.pups.growth_many import forecasts_mm

DAY = date(2026, 3, 9)
LOGS = st.floats(-1.5, 1.0)
SPREADS = st.floats(0.0, 0.5)

CURVES = st.builds(
    lambda width, rate, ahead, unsure: Curve(DAY, (width, rate, 6.0 + ahead), unsure),
    st.floats(80, 600),
    LOGS,
    LOGS,
    st.tuples(st.floats(0, 20), SPREADS, SPREADS, SPREADS, SPREADS, SPREADS),
)


@settings(max_examples=100, deadline=None)
@given(st.lists(st.tuples(CURVES, st.integers(-30, 2000)), min_size=1, max_size=6))
def test_many_at_once_are_the_forecasts_one_by_one(asked: list[tuple[Curve, int]]) -> None:
    """Each low, likely and high width is that of `forecast`, also on a day that is past."""
    curves = [curve for curve, _ in asked]
    days = [DAY + timedelta(days=ahead) for _, ahead in asked]
    alone = [forecast(curve, day) for curve, day in zip(curves, days, strict=True)]
    expected = np.array([[one.low_mm, one.width_mm, one.high_mm] for one in alone])
    assert forecasts_mm(curves, days) == pytest.approx(expected, rel=1e-9)
