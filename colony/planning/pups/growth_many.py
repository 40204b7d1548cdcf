"""The widths of many animals forecast at once, each on a day of its own."""

from collections.abc import Sequence
from datetime import date

import numpy as np

from colony.planning.arrays import Floats
from colony.planning.pups.growth import TAIL, Curve, normal_points
from colony.planning.pups.growth_law import YEAR_DAYS, width_mm


def forecasts_mm(curves: Sequence[Curve], days: Sequence[date]) -> Floats:
    """Low, likely and high disc width of n animals in mm, (n, 3): what `growth.forecast` says."""
    ahead = [max((day - curve.on).days, 0) for curve, day in zip(curves, days, strict=True)]
    years = np.array(ahead)[:, None] / YEAR_DAYS
    spread = _widths_mm(curves, np.array(normal_points()), years)
    low, high = np.quantile(spread, [TAIL, 1 - TAIL], axis=1, method="hazen")
    likely = _widths_mm(curves, np.zeros((1, 3)), years)[:, 0]
    return np.column_stack((low, np.clip(likely, low, high), high))


def _widths_mm(curves: Sequence[Curve], points: Floats, years: Floats) -> Floats:
    """Width of each animal on its day by each of its curves, (n, points)."""
    width, rate, asymptotic = np.array([curve.mean for curve in curves]).T[:, :, None]
    t = np.array([curve.triangle for curve in curves]).T[:, :, None]
    a, b, c = points.T
    first = width + t[0] * a
    to_come = np.maximum(np.exp(asymptotic + t[3] * a + t[4] * b + t[5] * c) - first, 0.0)
    return width_mm(first, np.exp(rate + t[1] * a + t[2] * b), to_come, years)
