"""What can hardly be meant is asked about before it is written, and written if it is meant."""

from collections.abc import Callable
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
    "a first width": (measure, {"tag": "Bella", "width_mm": 2000}, "would be 2000 mm wide"),
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
