"""The moves of the weeks to come."""

from collections.abc import Sequence
from datetime import timedelta

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from plain_house import TODAY, box, growing, kept, still

from colony.planning.tanks.occupancy import Swimmer
from colony.planning.tanks.plan import HousingPlan, plan_moves
from colony.planning.tanks.week import moved


@settings(max_examples=25, deadline=None)
@given(
    st.lists(
        st.tuples(
            st.integers(0, 3), st.integers(100, 200), st.floats(0.2, 1.0), st.integers(0, 90)
        ),
        max_size=14,
    )
)
def test_no_plan_breaks_a_hard_limit_on_any_day(
    animals: list[tuple[int, int, float, int]],
) -> None:
    """Followed week by week, a plan keeps every limit on every day of the horizon."""
    tanks = [
        box("T0"), box("T1", 1400, 600), box("T2", 800, 450), box("T3", 1200, 600),
        box("B1", 3000, 2000, role="breeding"), box("I1", role="intake", isolates=True),
    ]  # fmt: skip
    swimmers: Sequence[Swimmer] = [
        growing(f"p{n}", f"T{home}", width, rate, litter=f"L{n // 3}",
                leaves=TODAY + timedelta(days=stay + 10))
        for n, (home, width, rate, stay) in enumerate(animals)
    ]  # fmt: skip
    for number, week in enumerate(plan_moves(tanks, swimmers, today=TODAY, weeks=8).weeks):
        sold = set(week.remedy.sell) if week.remedy else set()
        swimmers = moved(
            [s for s in swimmers if s.tag not in sold], {m.tag: m.to_tank for m in week.moves}
        )
        assert not week.stuck
        for day in range(7):
            assert kept(tanks, swimmers, TODAY + timedelta(weeks=number, days=day))


def test_the_plan_recovers_when_the_records_are_mended() -> None:
    """A width typed too large asks for a move; mended, nobody has to go."""
    tanks = [box("A", 800, 400), box("B", 2000, 1000)]

    def plan(width: float) -> HousingPlan:
        return plan_moves(tanks, [still("p", "A", width)], today=TODAY, weeks=2)

    assert plan(230).animals_moved == 1
    assert plan(123).animals_moved == 0


def test_an_expected_litter_is_made_room_for_before_it_comes() -> None:
    """The week a litter is due counts its pups: residents that leave no room are moved."""
    tanks = [box("N", 800, 500, role="nursery"), box("G", 2000, 1000)]
    crowd = [still(f"p{n}", "N", 150) for n in range(6)]
    unborn = [
        still(f"due{n}", "N", 140, litter="due", arrives=TODAY + timedelta(days=10), pinned=True)
        for n in range(4)
    ]
    first, second = plan_moves(tanks, [*crowd, *unborn], today=TODAY, weeks=2).weeks
    assert first.moves == ()
    assert 1 <= len(second.moves) <= 6
    assert {m.tag[:1] for m in second.moves} == {"p"}


@pytest.mark.parametrize("seed", [1, 2])
def test_a_whole_house_is_planned_with_its_gap(seed: int) -> None:
    """Forty tanks and three hundred pups: each week optimal or with a gap below 1, limits kept."""
    tanks = [box(f"T{n}", 1000 + 100 * (n % 9), 600 + 50 * (n % 5)) for n in range(40)]
    swimmers = [
        growing(f"p{n}", f"T{(n // 8 + seed) % 40}", 130 + 7 * (n % 8), 0.4, litter=f"L{n // 4}",
                leaves=TODAY + timedelta(days=(n * 37) % 200 + 14))
        for n in range(300)
    ]  # fmt: skip
    plan = plan_moves(tanks, swimmers, today=TODAY, weeks=6)
    assert all(0 <= week.gap < 1 for week in plan.weeks)
    assert all(week.optimal == (week.gap == 0) for week in plan.weeks)
