"""The week's water: never overdrawn, urgent first, and short by exactly what cannot be laid."""

from itertools import product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from plain_water import WEEK, any_demands, big_reserves, demand, drawn, laid, routine

from colony.planning.water.demand import Demand, Routine, Urgent
from colony.planning.water.plan import fits, plan_water
from colony.planning.water.reserve import Reserve, levels


def test_an_urgent_change_takes_today_and_stays_within_its_limit() -> None:
    """600 L at no more than 250 L a day are laid 250, 250, 100 from today, before routine."""
    week = demand(Urgent("S1", 600, 250, rank=1, why="nitrite"), routine("S2", 200, 0, 0))
    plan = plan_water(Reserve(400, 300, 400), week)
    assert [(d.day, d.litres) for d in laid(plan) if d.urgent] == [(0, 250), (1, 250), (2, 100)]
    assert plan.days[0].short_l == 50
    assert plan.short_l == {"S2": 50}


def test_the_first_rank_is_laid_before_the_second() -> None:
    """Where there is water for one, the higher rank has it, whatever their order in the list."""
    week = demand(Urgent("S2", 100, 100, rank=2), Urgent("S1", 100, 100, rank=1))
    plan = plan_water(Reserve(100, 50, 100), week)
    assert [(d.day, d.system, d.litres) for d in laid(plan)] == [
        (0, "S1", 100),
        (1, "S2", 50),
        (2, "S2", 50),
    ]
    assert [day.short_l for day in plan.days[:3]] == [100, 50, 0]


def test_drips_come_before_every_change() -> None:
    """A drip that the reserve can just feed leaves a change only what was there before."""
    plan = plan_water(Reserve(500, 100, 150), demand(routine("S1", 80), drip=100))
    assert [day.drip_l for day in plan.days] == [100] * 7
    assert plan.short_l == {"S1": 30}


def test_changes_of_one_system_that_could_meet_are_a_mistake() -> None:
    """A system is changed at most once a day: windows that meet are no plan."""
    with pytest.raises(ValueError, match="S1"):
        plan_water(Reserve(9, 9, 9), demand(routine("S1", 1, 0, 3), routine("S1", 1, 3, 6)))
    with pytest.raises(ValueError, match="S1"):
        plan_water(Reserve(9, 9, 9), demand(Urgent("S1", 1, 1, 1), routine("S1", 1)))
    with pytest.raises(ValueError, match="days"):
        plan_water(Reserve(9, 9, 9), demand(routine("S1", 1, 5, 7)))


litres = st.integers(1, 6)


reserves = st.builds(
    lambda capacity, refill, missing: Reserve(capacity, refill, max(0, capacity - missing)),
    st.integers(0, 8),
    st.integers(0, 4),
    st.integers(0, 4),
)


@st.composite
def small_demands(draw: st.DrawFn, days: int) -> Demand:
    """Up to two urgent and three routine changes and a drip, each system once."""
    urgent = [
        Urgent(f"U{n}", draw(litres), draw(litres), rank=draw(st.integers(1, 2)))
        for n in range(draw(st.integers(0, 2)))
    ]
    needs = []
    for n in range(draw(st.integers(0, 3))):
        first = draw(st.integers(0, days - 1))
        needs.append(routine(f"R{n}", draw(litres), first, draw(st.integers(first, days - 1))))
    return demand(*urgent, *needs, drip=draw(st.integers(0, 2)))


def best_routine_by_brute_force(
    reserve: Reserve, fixed: list[int], needs: tuple[Routine, ...]
) -> int:
    """Try every way to pour every litre, and keep the most that is never overdrawn."""
    days = len(fixed)

    def ways(need: Routine) -> list[tuple[int, ...]]:
        per_day = [
            range(need.litres + 1) if need.first_day <= day <= need.last_day else range(1)
            for day in range(days)
        ]
        return [way for way in product(*per_day) if sum(way) <= need.litres]

    best = 0
    for choice in product(*map(ways, needs)):
        total = [fixed[day] + sum(way[day] for way in choice) for day in range(days)]
        if all(level >= out for level, out in zip(levels(reserve, total), total, strict=True)):
            best = max(best, sum(map(sum, choice)))
    return best


@settings(max_examples=100, deadline=None)
@given(reserves, small_demands(days=3))
def test_what_is_short_is_exactly_what_brute_force_cannot_lay(
    reserve: Reserve, week: Demand
) -> None:
    """Small cases, every pouring tried: routine is short by the least that it can be."""
    plan = plan_water(reserve, week, days=3)
    fixed = [d.drip_l + sum(x.litres for x in d.draws if x.urgent) for d in plan.days]
    got = sum(x.litres for x in laid(plan) if not x.urgent)
    assert got == best_routine_by_brute_force(reserve, fixed, week.routine)
    wanted = sum(need.litres for need in week.routine)
    assert sum(plan.short_l.get(need.system, 0) for need in week.routine) == wanted - got


@settings(max_examples=60, deadline=None)
@given(reserves, litres, litres, st.integers(0, 2))
def test_an_urgent_change_is_as_early_as_brute_force_can_make_it(
    reserve: Reserve, wanted: int, most: int, drip: int
) -> None:
    """One urgent change: the litres laid by each day are the most of all pourings."""
    plan = plan_water(reserve, demand(Urgent("S1", wanted, most, 1), drip=drip), days=3)
    drips = [day.drip_l for day in plan.days]
    ways = [
        way
        for way in product(range(most + 1), repeat=3)
        if sum(way) <= wanted
        and all(
            level >= out
            for level, out in zip(
                levels(reserve, [a + b for a, b in zip(way, drips, strict=True)]),
                [a + b for a, b in zip(way, drips, strict=True)],
                strict=True,
            )
        )
    ]
    by_day = [day.drawn_l - day.drip_l for day in plan.days]
    for day in range(3):
        assert sum(by_day[: day + 1]) == max(sum(way[: day + 1]) for way in ways)


@settings(max_examples=80, deadline=None)
@given(big_reserves, any_demands)
def test_no_plan_overdraws_or_overchanges(reserve: Reserve, week: Demand) -> None:
    """Every morning covers its day; nobody is changed above its limit or outside its window."""
    plan = plan_water(reserve, week)
    assert all(day.level_l >= day.drawn_l for day in plan.days)
    assert [day.level_l for day in plan.days] == levels(reserve, drawn(plan))
    urgent = {need.system: need for need in week.urgent}
    windows = {need.system: need for need in week.routine}
    for day in plan.days:
        assert len({draw.system for draw in day.draws}) == len(day.draws)
        for draw in day.draws:
            if draw.urgent:
                assert draw.litres <= urgent[draw.system].most_l_a_day
                assert day.day in urgent[draw.system].days(WEEK)
            else:
                need = windows[draw.system]
                assert need.first_day <= day.day <= need.last_day
                assert draw.litres <= need.litres
    got = sum(draw.litres for draw in laid(plan)) + sum(day.drip_l for day in plan.days)
    asked = sum(n.litres for n in week.changes) + WEEK * week.drip_l_a_day
    assert asked - got == sum(plan.short_l.values())
    assert fits(reserve, week) == plan.fits


@settings(max_examples=60, deadline=None)
@given(big_reserves, any_demands)
def test_urgent_goes_before_routine(reserve: Reserve, week: Demand) -> None:
    """Urgent changes are laid as if there were no routine at all."""
    alone = plan_water(reserve, Demand(week.drip_l_a_day, week.urgent, ()))
    assert [d for d in laid(plan_water(reserve, week)) if d.urgent] == laid(alone)
