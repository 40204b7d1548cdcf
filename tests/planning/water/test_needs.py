"""Which water each system wants: its rhythm, a bad test, a full tank, a litter."""

from dataclasses import replace
from datetime import date, timedelta

from hypothesis import given, settings
from hypothesis import strategies as st

from colony.planning.water.demand import Routine
from colony.planning.water.limits import (
    Limit,
    OutOfLimit,
)
from colony.planning.water.needs import (
    BAD_TEST,
    DUE_LITTER,
    HIGH_LOAD,
    SystemWater,
    WeekRules,
    beyond_changes,
    demand_of,
)
from colony.planning.water.plan import plan_water
from colony.planning.water.reserve import Reserve

TODAY = date(2025, 3, 10)


RULES = WeekRules()


S1 = SystemWater("S1", 1000, percent=25, every_days=7, last_change=TODAY - timedelta(days=4))


NITRATE = OutOfLimit("nitrate_mg_l", 80, Limit("nitrate_mg_l", None, 40, "own"))


def test_a_weekly_change_may_slip_two_days_either_way() -> None:
    """Changed four days ago: 250 L are due in three days, from tomorrow to the fifth day."""
    wanted = demand_of([S1], TODAY, RULES)
    assert wanted.urgent == ()
    assert wanted.routine == (Routine("S1", 250, 1, 5, 3),)


def test_an_overdue_change_is_for_today() -> None:
    """Past its day and its slack, a change is wanted today; the next one keeps its distance."""
    (now,) = demand_of([replace(S1, last_change=TODAY - timedelta(days=30))], TODAY, RULES).routine
    assert (now.first_day, now.last_day) == (0, 0)


def test_nitrate_at_twice_its_limit_wants_half_the_water_within_the_limit_of_a_day() -> None:
    """80 mg/L to 40 is one change of half; with 30 % a day allowed it takes two of 29.3 %."""
    (half,) = demand_of([replace(S1, bad_tests=(NITRATE,))], TODAY, RULES).urgent
    assert (half.litres, half.most_l_a_day, half.rank) == (500, 500, BAD_TEST)
    gentle = replace(S1, bad_tests=(NITRATE,), most_percent_a_day=30)
    (two,) = demand_of([gentle], TODAY, RULES).urgent
    assert (two.litres, two.most_l_a_day) == (586, 293)


def test_a_ph_out_of_limits_is_no_reason_for_a_change() -> None:
    """New water is no cure for pH: it is named, and nothing is laid for it."""
    acid = OutOfLimit("ph", 5.2, Limit("ph", 6.0, 7.8, "own"))
    system = replace(S1, bad_tests=(acid,))
    assert demand_of([system], TODAY, RULES).urgent == ()
    ((named, why),) = beyond_changes(system)
    assert named == acid
    assert why.startswith("test the alkalinity")


def test_a_full_tank_and_a_due_litter_bring_the_change_forward() -> None:
    """Load goes before the litter; neither asks again the day after a change."""
    (full,) = demand_of([replace(S1, too_full=True)], TODAY, RULES).urgent
    assert (full.litres, full.rank) == (250, HIGH_LOAD)
    (litter,) = demand_of([replace(S1, litter_due=TODAY + timedelta(days=5))], TODAY, RULES).urgent
    assert litter.rank == DUE_LITTER
    fresh = replace(S1, too_full=True, last_change=TODAY - timedelta(days=1))
    assert demand_of([fresh], TODAY, RULES).urgent == ()
    assert (
        demand_of([replace(S1, litter_due=TODAY + timedelta(days=20))], TODAY, RULES).urgent == ()
    )


def test_what_was_changed_today_waits_for_its_rhythm() -> None:
    """A system changed today asks for nothing more today, whatever its tests say."""
    done = replace(
        S1, every_days=2, last_change=TODAY, changed_today=True, bad_tests=(NITRATE,), too_full=True
    )
    wanted = demand_of([done], TODAY, RULES)
    assert wanted.urgent == ()
    assert [need.first_day for need in wanted.routine] == [2, 4, 6]


systems = st.builds(
    SystemWater,
    name=st.just("S"),
    volume_l=st.integers(50, 9000),
    percent=st.floats(0, 90),
    every_days=st.integers(1, 30),
    most_percent_a_day=st.floats(5, 90),
    drip_l_a_day=st.integers(0, 50),
    last_change=st.none() | st.integers(0, 60).map(lambda n: TODAY - timedelta(days=n)),
    bad_tests=st.sampled_from([(), (NITRATE,)]),
    too_full=st.booleans(),
    litter_due=st.none() | st.integers(0, 30).map(lambda n: TODAY + timedelta(days=n)),
)


@settings(max_examples=80, deadline=None)
@given(st.lists(systems, max_size=5), st.integers(0, 5000), st.integers(0, 2000))
def test_every_demand_can_be_planned_within_the_limit_of_every_system(
    found: list[SystemWater], capacity: int, refill: int
) -> None:
    """Windows of a system never meet, and no day changes more of it than its limit."""
    named = [
        replace(one, name=f"S{n}", changed_today=one.last_change == TODAY)
        for n, one in enumerate(found)
    ]
    plan = plan_water(Reserve(capacity, refill, capacity), demand_of(named, TODAY, RULES))
    by_name = {one.name: one for one in named}
    for day in plan.days:
        for draw in day.draws:
            assert draw.litres <= by_name[draw.system].most_l_a_day
