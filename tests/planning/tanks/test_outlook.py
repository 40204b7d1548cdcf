"""The load of every tank in the weeks to come, and the first day each limit breaks."""

from dataclasses import replace
from datetime import date, timedelta
from math import log

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from colony.planning.pups.growth import Curve, GrowthPrior
from colony.planning.tanks.limits import breaks
from colony.planning.tanks.load import Occupant, TankFloor, disc_mm2, load
from colony.planning.tanks.occupancy import (
    ExpectedLitter,
    Swimmer,
    days_from,
    expected_pups,
    widths_on,
)
from colony.planning.tanks.outlook import outlook

TODAY = date(2024, 6, 1)


BOX = TankFloor("A1", length_mm=1000, width_mm=500)


def pup(tag: str, width_mm: float, rate: float = 0.5, **facts: object) -> Swimmer:
    """Make a growing pup in the box."""
    curve = Curve(TODAY, (width_mm, log(rate), log(600)), (3.0, 0.0, 0.2, 0.0, 0.0, 0.05))
    return replace(Swimmer(tag, "A1", curve), **facts)  # type: ignore[arg-type]


def test_load_grows_with_the_pups_and_falls_with_sales_and_rises_with_births() -> None:
    """Week by week: growth, a sale in week 3 and a litter of two in week 5."""
    due = ExpectedLitter("Alma", TODAY + timedelta(weeks=5), 2, "A1", GrowthPrior(600, 0.5))
    animals = [
        pup("a", 120),
        pup("b", 120, leaves=TODAY + timedelta(weeks=3)),
        *expected_pups(due),
    ]
    (tank,) = outlook([BOX], animals, today=TODAY, weeks=6)
    assert tank.animals == (2, 2, 2, 1, 1, 3, 3)
    assert tank.loads[0] == pytest.approx(2 * disc_mm2(120) / 500_000)
    assert (tank.loads[2] or 0) > (tank.loads[0] or 0)
    assert (tank.loads[3] or 0) < (tank.loads[2] or 0)
    assert (tank.loads[5] or 0) - (tank.loads[4] or 0) > 2 * disc_mm2(139) / 500_000


def test_the_first_day_a_limit_breaks_is_named_with_its_reason() -> None:
    """A pup outgrows a tank 50 cm wide on the day its disc passes 25 cm."""
    (tank,) = outlook([BOX], [pup("a", 245, 1.0)], today=TODAY, weeks=4)
    breach = tank.first_breach
    assert breach is not None
    assert breach.reason.rule in {"tank_width", "tank_length"}
    before, on = widths_on([pup("a", 245, 1.0)], [breach.day - timedelta(days=1), breach.day])[
        0
    ].tolist()
    assert before <= 250 < on


@settings(max_examples=40, deadline=None)
@given(st.lists(st.tuples(st.floats(90, 240), st.floats(0.1, 2), st.integers(0, 60)), max_size=6))
def test_the_breaches_are_those_of_a_plain_day_by_day_look(
    animals: list[tuple[float, float, int]],
) -> None:
    """The same first days as judging every day with the plain limits, rule by rule."""
    swimmers = [
        pup(f"p{n}", width, rate, leaves=TODAY + timedelta(days=40 + stay))
        for n, (width, rate, stay) in enumerate(animals)
    ]
    (tank,) = outlook([BOX], swimmers, today=TODAY, weeks=10)
    expected: dict[str, date] = {}
    days = days_from(TODAY, 10)
    for day, widths in zip(days, widths_on(swimmers, days).T.tolist(), strict=True):
        there = [
            Occupant(s.tag, w)
            for s, w in zip(swimmers, widths, strict=True)
            if s.leaves is None or day < s.leaves
        ]
        for reason in breaks(BOX, there):
            expected.setdefault(reason.rule, day)
    assert {b.reason.rule: b.day for b in tank.breaches} == expected


def test_isolation_in_shared_water_is_a_breach_at_once() -> None:
    """An isolated animal in a tank that shares water is named today; after it, it is not."""
    late = TODAY + timedelta(days=5)
    (tank,) = outlook([BOX], [pup("new", 150, isolated_until=late)], today=TODAY, weeks=1)
    assert [(b.day, b.reason.rule) for b in tank.breaches] == [(TODAY, "isolation")]
    safe = replace(BOX, isolates=True)
    (tank,) = outlook([safe], [pup("new", 150, isolated_until=late)], today=TODAY, weeks=1)
    assert tank.breaches == ()


def test_a_tank_of_unknown_size_has_no_load_but_its_animals() -> None:
    """Without a size there is no load to show, and no limit of floor to break."""
    (tank,) = outlook([TankFloor("A1")], [pup("a", 240)], today=TODAY, weeks=2)
    assert tank.loads == (None, None, None)
    assert tank.animals == (1, 1, 1)
    assert tank.breaches == ()


def test_an_empty_house_has_an_empty_outlook() -> None:
    """No animal at all: loads of zero, no breach."""
    (tank,) = outlook([BOX], [], today=TODAY, weeks=1)
    assert tank.loads == (0.0, 0.0)
    assert tank.first_breach is None


def test_a_mended_width_changes_the_outlook() -> None:
    """The loads follow the widths they are computed from."""
    (small,) = outlook([BOX], [pup("a", 120)], today=TODAY, weeks=1)
    (large,) = outlook([BOX], [pup("a", 180)], today=TODAY, weeks=1)
    assert (large.loads[1] or 0) > 2 * (small.loads[1] or 0)
    assert load(BOX, [Occupant("a", 180)]) == pytest.approx(large.loads[0])
