"""Who is where, and how wide, on the days to come."""

from dataclasses import replace
from datetime import date, timedelta
from math import log

import pytest

from colony.planning.pups.growth import Curve, forecast
from colony.planning.pups.readiness import PupFacts, ReadyRules, readiness
from colony.planning.tanks.occupancy import (
    Swimmer,
    days_from,
    expected_sales,
    widths_on,
)

TODAY = date(2024, 6, 1)


def pup(tag: str, width_mm: float, rate: float = 0.5, **facts: object) -> Swimmer:
    """Make a growing pup in the box."""
    curve = Curve(TODAY, (width_mm, log(rate), log(600)), (3.0, 0.0, 0.2, 0.0, 0.0, 0.05))
    return replace(Swimmer(tag, "A1", curve), **facts)  # type: ignore[arg-type]


def test_the_widths_are_the_forecast_s_own() -> None:
    """The widths of the outlook are the likely ones of `growth.forecast`."""
    days = days_from(TODAY, 8)
    animals = [pup("a", 120), pup("b", 150, 1.0)]
    widths = widths_on(animals, days)
    for animal, row in zip(animals, widths, strict=True):
        assert animal.curve is not None
        expected = [forecast(animal.curve, day).width_mm for day in days]
        assert row.tolist() == pytest.approx(expected)


def test_sales_take_the_ready_in_order_at_the_pace_of_the_trade() -> None:
    """Two a week: each pup leaves after it is ready, and never more than two in seven days."""
    facts = [
        PupFacts(f"p{n}", "leopoldi", "F", born=TODAY - timedelta(days=60 - n)) for n in range(6)
    ]
    rules = ReadyRules(min_width_mm=0, min_foods=0)
    ready = [readiness(pup, rules, TODAY) for pup in facts]
    leaving = expected_sales(ready, 2, TODAY)
    days = sorted((day - TODAY).days for day in leaving.values())
    assert len(leaving) == 6
    assert days == [3, 7, 10, 14, 17, 21]
    assert expected_sales(ready, 0, TODAY) == {}
