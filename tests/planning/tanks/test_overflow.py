"""Which tanks are named before growth brings them over a limit."""

from datetime import date, timedelta
from math import pi

import pytest

from colony.planning.pups.growth import Curve, GrowthPrior, Width, first_curve
from colony.planning.tanks.load import Occupant, TankFloor, load
from colony.planning.tanks.overflow import overflowing

TODAY = date(2024, 6, 1)
FEMALE = GrowthPrior(asymptotic_mm=763.06, rate_per_year=0.36)
"""P. leopoldi females at three times the published rate (Charvet et al. 2018, J. Fish Biol.
92:1985-1999)."""


def curve_from(width_mm: float) -> Curve:
    """The curve of a pup measured today."""
    curve = first_curve([Width(TODAY, width_mm)], FEMALE, born=None)
    assert curve is not None
    return curve


def test_a_tank_that_growth_brings_over_its_limit_is_named_before() -> None:
    """Pups at 29.9 % of the floor today are over 30 % in two weeks; a still tank is not."""
    widths = {f"p{n}": 160.0 + n for n in range(20)}
    here = [Occupant(tag, width, family="L1") for tag, width in widths.items()]
    area = sum(pi / 4 * width**2 for width in widths.values())
    tank = TankFloor("G1", length_mm=area / 0.299 / 1000, width_mm=1000)
    assert (load(tank, here) or 0) == pytest.approx(0.299)
    adults = TankFloor("A1", length_mm=2000, width_mm=1000), [Occupant("Alma", 400)]
    curves = {tag: curve_from(width) for tag, width in widths.items()}
    day = TODAY + timedelta(days=14)
    (soon,) = overflowing([(tank, here), adults], curves, day=day)
    assert (soon.tank, soon.day) == ("G1", day)
    assert "limit is 30%" in soon.why
    assert overflowing([(tank, here)], curves, day=TODAY) == ()


def test_a_tank_over_its_limit_today_is_not_news() -> None:
    """It stands with today's broken limits already."""
    full = TankFloor("G1", length_mm=500, width_mm=500), [Occupant("p0", 400)]
    assert overflowing([full], {}, day=TODAY) == ()
