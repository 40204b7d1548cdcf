"""Each gate of readiness by itself."""

from dataclasses import replace
from datetime import date, timedelta
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from colony.planning.pups.feeding import FoodOffered
from colony.planning.pups.growth import GrowthPrior, Width
from colony.planning.pups.readiness import (
    PupFacts,
    ReadyRules,
    readiness,
)

TODAY = date(2024, 6, 1)


RULES = ReadyRules()


def ago(days: int) -> date:
    """Count days back from today."""
    return TODAY - timedelta(days=days)


READY = PupFacts(
    "p1",
    "Potamotrygon leopoldi",
    "F",
    born=ago(60),
    widths=(Width(ago(3), 125),),
    feedings=(FoodOffered(ago(20), "shrimp", True), FoodOffered(ago(15), "smelt", True)),
    prior=GrowthPrior(763, 0.5),
)


@pytest.mark.parametrize(
    ("change", "gate", "expected"),
    [
        ({"born": ago(40)}, "age", TODAY + timedelta(days=2)),
        ({"feedings": ()}, "feeding", TODAY + timedelta(days=14)),
        ({"held": True, "held_until": TODAY}, "no_hold", TODAY + timedelta(days=1)),
        ({"held": True}, "no_hold", None),
        ({"held_back": True}, "not_held_back", None),
        ({"reserved": True}, "not_reserved", None),
        ({"sex": "U"}, "sexed", TODAY),
        ({"isolated_until": TODAY + timedelta(days=9)}, "isolation_over",
         TODAY + timedelta(days=9)),
        ({"born": None}, "age", None),
    ],
)  # fmt: skip
def test_each_gate_alone_holds_a_pup_back(
    change: dict[str, Any], gate: str, expected: date | None
) -> None:
    """One fact changed closes just its gate, and dates the day on which it opens."""
    found = readiness(replace(READY, **change), RULES, TODAY)
    assert found.waiting_on == (gate,)
    assert not found.ready
    assert found.expected_ready == expected


def test_a_narrow_pup_waits_for_a_measured_width() -> None:
    """A forecast never opens the width gate: it only says when to measure."""
    narrow = replace(READY, widths=(Width(ago(100), 119),))
    found = readiness(narrow, RULES, TODAY)
    assert found.waiting_on == ("width",)
    assert found.expected_ready == TODAY
    young = readiness(replace(READY, widths=(Width(TODAY, 100),)), RULES, TODAY)
    assert TODAY < (young.ready_low or TODAY) < (young.expected_ready or TODAY)
    assert (young.expected_ready or TODAY) < (young.ready_high or date.max)


def test_a_smaller_later_width_does_not_close_the_gate_again() -> None:
    """Once measured wide enough, a pup stays wide enough."""
    again = replace(READY, widths=(Width(ago(9), 121), Width(ago(2), 119)))
    assert readiness(again, RULES, TODAY).gates["width"]


facts = st.tuples(st.integers(0, 100), st.floats(90, 160), st.integers(0, 40))


@given(facts, facts)
def test_gates_are_monotone(start: tuple[int, float, int], gain: tuple[int, float, int]) -> None:
    """Older, wider and longer fed never closes a gate that was open."""

    def gates(age: int, width: float, fed: int) -> list[bool]:
        pup = replace(
            READY,
            born=ago(age),
            widths=(Width(TODAY, width),),
            feedings=(FoodOffered(ago(fed), "shrimp", True), FoodOffered(ago(fed), "smelt", True)),
        )
        return list(readiness(pup, RULES, TODAY).gates.values())

    before = gates(*start)
    after = gates(start[0] + gain[0], start[1] + gain[1], start[2] + gain[2])
    assert all(late or not early for early, late in zip(before, after, strict=True))


@given(st.integers(0, 200))
def test_a_gate_of_time_stays_open_as_days_pass(days: int) -> None:
    """With nothing new recorded, a later day never closes a gate."""
    pup = replace(READY, born=ago(20), isolated_until=TODAY + timedelta(days=30))
    before = readiness(pup, RULES, TODAY).gates
    after = readiness(pup, RULES, TODAY + timedelta(days=days)).gates
    assert all(after[name] or not before[name] for name in before)
