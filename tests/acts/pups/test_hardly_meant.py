"""What can hardly be meant is asked about before it is written, and written if it is meant."""

from collections.abc import Callable
from datetime import date
from math import exp
from typing import Any

import pytest
from farm import TODAY, Farm

from colony.acts.book.settings import set_setting
from colony.acts.care.feeding import feed_tank
from colony.acts.care.foods import set_food
from colony.acts.litters.record import record_litter
from colony.acts.pups.measure import measure
from colony.acts.tanks.tanks import set_system
from colony.acts.water.changes import change_water
from colony.notation.pups import PupCount
from colony.refusals.animals import HardlyMeant

CASES: dict[str, tuple[Callable[..., Any], dict[str, Any], str]] = {
    "a width that shrank": (measure, {"tag": "Alma", "width_mm": 300}, "rays do not shrink"),
    "a first width": (measure, {"tag": "Bella", "width_mm": 2000}, "would be 200 cm wide"),
    "a litter": (record_litter, {"dam": "Alma", "pups": PupCount(20)}, "bears 8 at most"),
    "a meal": (
        feed_tank,
        {"tank": "N1", "food": "pellets", "offered_g": 40_000},
        "is a great deal for them",
    ),
    "a change of water": (
        change_water,
        {"system": "Main", "litres": 900},
        "the reserve holds 500 L",
    ),
}


@pytest.mark.parametrize("case", CASES)
def test_it_is_asked_about_and_written_anyway(farm: Farm, case: str) -> None:
    """Nothing is written at first; with `anyway` it is, and the doubt is said."""
    farm.tank("N1", "900cm")
    farm.do(set_system, name="Main", volume_l=4000)
    farm.do(set_setting, key="reserve_l", value="500")
    farm.do(set_food, name="pellets")
    farm.female("Alma", width="50cm", tank="N1")
    farm.write("UPDATE measurement SET measured_on = '2026-02-01'")
    farm.female("Bella")
    act, facts, said = CASES[case]
    day = "born" if act is record_litter else "on"
    before = farm.written()
    with pytest.raises(HardlyMeant, match=said):
        farm.do(act, **facts, **{day: TODAY}, today=TODAY)
    assert farm.written() == before
    done = farm.do(act, **facts, **{day: TODAY}, anyway=True, today=TODAY)
    assert any(said in str(warning) for warning in done.warnings)


def test_a_width_far_from_its_own_forecast_is_asked_about(farm: Farm) -> None:
    """A quarter wider than a pup's own curve is a slip, though a ray can grow that fast a week."""
    farm.female("Kira", species="P. motoro")
    law = [(date(2025, 3, 9), 0.0), (date(2025, 7, 9), 122.0), (date(2025, 11, 9), 245.0)]
    for on, days in law:
        farm.do(measure, tag="Kira", width_mm=_grown_mm(days), on=on, today=TODAY)
    expected = _grown_mm(365)
    with pytest.raises(HardlyMeant, match="by its own growth"):
        farm.do(measure, tag="Kira", width_mm=round(1.25 * expected), on=TODAY, today=TODAY)
    done = farm.do(measure, tag="Kira", width_mm=expected, on=TODAY, today=TODAY)
    assert done.warnings == ()


def _grown_mm(days: float) -> int:
    """Von Bertalanffy 1938: 140 mm at first, 500 mm at last, 0.5 a year."""
    return round(500 - 360 * exp(-0.5 * days / 365.25))
