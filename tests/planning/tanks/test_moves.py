"""A week's moves against brute force, and plans that never break a limit."""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from datetime import date, timedelta
from itertools import product
from math import log

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from colony.planning.pups.growth import Curve
from colony.planning.tanks.bounds import fewest_leaving, fewest_sold
from colony.planning.tanks.limits import DEFAULT_LIMITS, breaks, is_isolated
from colony.planning.tanks.load import ISOLATING_ROLES, Occupant, TankFloor
from colony.planning.tanks.moves import week_plan
from colony.planning.tanks.occupancy import Swimmer, widths_on
from colony.planning.tanks.plan import HousingPlan, plan_moves
from colony.planning.tanks.week import house_week, moved

TODAY = date(2024, 6, 1)


def box(code: str, length: int = 1000, width: int = 500, **facts: object) -> TankFloor:
    """Make a rectangular tank."""
    return replace(TankFloor(code, length_mm=length, width_mm=width), **facts)  # type: ignore[arg-type]


def still(tag: str, tank: str, width: float, **facts: object) -> Swimmer:
    """Make an animal that does not grow, so that every day of the week is alike."""
    return replace(Swimmer(tag, tank, disc_width_mm=width), **facts)  # type: ignore[arg-type]


def kept(tanks: Sequence[TankFloor], swimmers: Sequence[Swimmer], day: date) -> bool:
    """Judge an arrangement with the plain limits of `limits`, tank by tank."""
    for tank in tanks:
        there = [s for s in swimmers if s.tank == tank.code and (s.leaves or date.max) > day]
        widths = [float(w) for w in widths_on(there, [day])[:, 0]]
        occupants = [
            Occupant(s.tag, w, s.isolated_until, s.kin)
            for s, w in zip(there, widths, strict=True)
            if (s.arrives or day) <= day
        ]
        unsafe = any(is_isolated(o, day) and not tank.isolates for o in occupants)
        if breaks(tank, occupants) or unsafe:
            return False
    return True


def arrangements(
    tanks: Sequence[TankFloor], swimmers: Sequence[Swimmer]
) -> Iterator[tuple[int, int, tuple[Swimmer, ...]]]:
    """Try every arrangement: yield moves, litter parts and animals of each that keeps all."""
    for codes in product([t.code for t in tanks], repeat=len(swimmers)):
        arranged = tuple(replace(s, tank=c) for s, c in zip(swimmers, codes, strict=True))
        changed = [
            (s, next(t for t in tanks if t.code == c))
            for s, c in zip(swimmers, codes, strict=True)
            if s.tank != c
        ]
        allowed = all(
            not s.pinned and t.role in s.roles and t.role not in ISOLATING_ROLES for s, t in changed
        )
        if allowed and kept(tanks, arranged, TODAY):
            parts = {(s.litter, s.tank) for s in arranged if s.litter}
            yield len(changed), len(parts), arranged


houses = st.tuples(
    st.lists(st.tuples(st.integers(0, 2), st.integers(100, 245), st.integers(0, 2)), max_size=5),
    st.lists(st.sampled_from([(600, 400), (800, 500), (1000, 500)]), min_size=3, max_size=3),
)

crowded = st.tuples(
    st.lists(
        st.tuples(st.integers(0, 2), st.integers(150, 245), st.integers(0, 2)),
        min_size=3,
        max_size=5,
    ),
    st.lists(st.sampled_from([(600, 350), (700, 400), (800, 450)]), min_size=3, max_size=3),
)


def house(
    drawn: tuple[list[tuple[int, int, int]], list[tuple[int, int]]],
) -> tuple[list[TankFloor], list[Swimmer]]:
    """Build a small house from what hypothesis drew."""
    animals, sizes = drawn
    tanks = [box(f"T{n}", *size) for n, size in enumerate(sizes)]
    swimmers = [
        still(f"p{n}", f"T{home}", width, litter=("", "L1", "L2")[litter])
        for n, (home, width, litter) in enumerate(animals)
    ]
    return tanks, swimmers


@settings(max_examples=120, deadline=None)
@given(houses)
def test_the_plan_is_the_best_of_all_arrangements(
    drawn: tuple[list[tuple[int, int, int]], list[tuple[int, int]]],
) -> None:
    """Fewest moves, then fewest litter parts, as brute force over every arrangement finds."""
    tanks, swimmers = house(drawn)
    plan = week_plan(house_week(tanks, swimmers, DEFAULT_LIMITS, begins=TODAY))
    best = min(((m, p) for m, p, _ in arrangements(tanks, swimmers)), default=None)
    if best is None:
        assert plan.impossible
        assert plan.remedy is not None
        return
    after = moved(swimmers, {m.tag: m.to_tank for m in plan.moves})
    assert not plan.impossible
    assert kept(tanks, after, TODAY)
    assert plan.optimal
    assert len(plan.moves) == best[0]
    if plan.moves and plan.mates_proved:
        assert len({(s.litter, s.tank) for s in after if s.litter}) == best[1]


@settings(max_examples=60, deadline=None)
@given(houses)
def test_the_bounds_never_say_too_many(
    drawn: tuple[list[tuple[int, int, int]], list[tuple[int, int]]],
) -> None:
    """No arrangement moves or sells fewer animals than the bounds claim must go."""
    tanks, swimmers = house(drawn)
    week = house_week(tanks, swimmers, DEFAULT_LIMITS, begins=TODAY)
    best = min((m for m, _, _ in arrangements(tanks, swimmers)), default=None)
    if best is None:
        return
    assert sum(fewest_leaving(week, tank) for tank in week.broken().tolist()) <= best
    assert fewest_sold(week) == 0


@settings(max_examples=40, deadline=None)
@given(crowded)
def test_what_is_said_to_be_enough_is_enough(
    drawn: tuple[list[tuple[int, int, int]], list[tuple[int, int]]],
) -> None:
    """With the named animals sold the limits are kept; so they are with the extra tank."""
    tanks, swimmers = house(drawn)
    plan = week_plan(house_week(tanks, swimmers, DEFAULT_LIMITS, begins=TODAY))
    if plan.remedy is None:
        return
    left = [s for s in swimmers if s.tag not in plan.remedy.sell]
    assert kept(tanks, moved(left, {m.tag: m.to_tank for m in plan.moves}), TODAY)
    assert plan.optimal
    fewer = range(plan.remedy.at_least)
    assert all(not _enough_without(tanks, swimmers, n) for n in fewer)
    if plan.remedy.tank:
        extra = box("new", plan.remedy.tank.length_mm, plan.remedy.tank.width_mm)
        again = week_plan(house_week([*tanks, extra], swimmers, DEFAULT_LIMITS, begins=TODAY))
        assert again.remedy is None


def _enough_without(tanks: Sequence[TankFloor], swimmers: Sequence[Swimmer], sold: int) -> bool:
    """Try every way of selling so many and arranging the rest."""
    choices = product([True, False], repeat=len(swimmers))
    return any(
        next(arrangements(tanks, [s for s, stay in zip(swimmers, c, strict=True) if stay]), None)
        for c in choices
        if c.count(False) == sold
    )


def growing(tag: str, tank: str, width: float, rate: float, **facts: object) -> Swimmer:
    """Make an animal that grows."""
    curve = Curve(TODAY, (width, log(rate), log(600)), (3.0, 0.0, 0.2, 0.0, 0.0, 0.05))
    return replace(Swimmer(tag, tank, curve), **facts)  # type: ignore[arg-type]


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


def test_nothing_goes_from_isolation_into_shared_water_nor_the_other_way() -> None:
    """Too many in intake: the isolated go only to intake of the same water, the clean to none."""
    tanks = [
        box("I1", 700, 400, role="intake", system="Q", isolates=True),
        box("I2", 900, 500, role="intake", system="Q", isolates=True),
        box("G1", 900, 500),
        box("G2", 700, 400),
    ]
    until = TODAY + timedelta(days=20)
    fresh = [still(f"new{n}", "I1", 150, isolated_until=until) for n in range(6)]
    crowd = [still(f"old{n}", "G2", 150) for n in range(6)]
    plan = week_plan(house_week(tanks, [*fresh, *crowd], DEFAULT_LIMITS, begins=TODAY))
    assert plan.optimal
    targets = {m.tag[:3]: m.to_tank for m in plan.moves}
    assert targets == {"new": "I2", "old": "G1"}


def test_an_isolated_animal_in_shared_water_is_brought_to_empty_intake() -> None:
    """Where isolation is broken, the animal is moved, and the reason says so."""
    tanks = [box("I1", role="intake", isolates=True), box("G1"), box("G2")]
    animal = still("new", "G1", 150, isolated_until=TODAY + timedelta(days=9))
    plan = week_plan(house_week(tanks, [animal], DEFAULT_LIMITS, begins=TODAY))
    (move,) = plan.moves
    assert (move.from_tank, move.to_tank) == ("G1", "I1")
    assert "isolated until" in move.why


def test_litter_mates_leave_and_arrive_together() -> None:
    """Of an overfull tank with two litters of two, one whole litter goes to one tank."""
    tanks = [box("A", 800, 500), box("B", 800, 500), box("C", 800, 500)]
    animals = [still(f"{name}{n}", "A", 200, litter=name) for name in "xy" for n in (1, 2)]
    animals = [*animals, still("b", "B", 100), still("c", "C", 100)]
    week = house_week(tanks, animals, replace(DEFAULT_LIMITS, load=0.20), begins=TODAY)
    plan = week_plan(week)
    assert plan.optimal
    assert plan.mates_proved
    assert len({m.tag[0] for m in plan.moves}) == 1
    assert len({m.to_tank for m in plan.moves}) == 1
    assert len(plan.moves) == 2


def test_a_move_says_from_where_to_where_by_when_and_why() -> None:
    """The work list can be read without the plan."""
    tanks = [box("A", 800, 400), box("B", 2000, 1000)]
    plan = week_plan(house_week(tanks, [still("big", "A", 230)], DEFAULT_LIMITS, begins=TODAY))
    (move,) = plan.moves
    assert (move.tag, move.from_tank, move.to_tank, move.by) == ("big", "A", "B", TODAY)
    assert "46 cm" in move.why


def test_a_pinned_animal_that_breaks_a_limit_is_said_to_be_stuck() -> None:
    """A gravid dam too wide for her tank is not moved, but the reason is shown."""
    tanks = [box("A", 800, 400), box("B", 2000, 1000, role="breeding")]
    dam = still("Alma", "A", 300, pinned=True)
    plan = week_plan(house_week(tanks, [dam, still("p", "A", 160)], DEFAULT_LIMITS, begins=TODAY))
    assert not any(m.tag == "Alma" for m in plan.moves)
    assert any("Alma" in sentence for sentence in plan.stuck)


def test_pinned_animals_too_unlike_are_stuck_and_the_others_are_still_planned() -> None:
    """A pinned pair that may not be together stays; the tank beside it is put in order."""
    tanks = [box("A", 2000, 1000), box("B", 800, 500), box("C", 1000, 500)]
    pair = [still("large", "A", 300, pinned=True), still("small", "A", 120, pinned=True)]
    crowd = [still(f"p{n}", "B", 170) for n in range(6)]
    mate = still("third", "A", 160)
    plan = week_plan(house_week(tanks, [*pair, mate, *crowd], DEFAULT_LIMITS, begins=TODAY))
    assert any("large" in sentence and "small" in sentence for sentence in plan.stuck)
    assert {m.tag for m in plan.moves} & {"large", "small"} == set()
    assert len(plan.moves) == 1
    assert plan.optimal


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


def test_selling_never_names_the_unborn_nor_those_kept() -> None:
    """What would be enough counts only born animals that are for sale."""
    tanks = [box("A", 800, 500)]
    animals = [
        *(still(f"kept{n}", "A", 170, for_sale=False) for n in range(3)),
        *(still(f"sale{n}", "A", 170) for n in range(5)),
    ]
    plan = week_plan(house_week(tanks, animals, DEFAULT_LIMITS, begins=TODAY))
    assert plan.impossible
    assert plan.remedy is not None
    assert len(plan.remedy.sell) == plan.remedy.at_least == 3
    assert all(tag.startswith("sale") for tag in plan.remedy.sell)
    assert plan.remedy.tank is not None


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


def test_the_young_stay_and_the_grown_go() -> None:
    """Newborn pups in their nursery are not what is moved, though fewer moves would do."""
    nursery, out = box("P", role="nursery"), box("G", 2000, 1000)
    until = TODAY + timedelta(weeks=6)
    young = [still(f"young {n}", "P", 80, litter="b", stays_until=until) for n in range(2)]
    grown = [still(f"grown {n}", "P", 162, litter="a") for n in range(3)]
    week = house_week([nursery, out], [*young, *grown], DEFAULT_LIMITS, begins=TODAY)
    plan = week_plan(week)
    assert {move.tag: move.to_tank for move in plan.moves} == {s.tag: "G" for s in grown}
    assert plan.optimal
    later = house_week([nursery, out], [*young, *grown], DEFAULT_LIMITS, begins=until)
    assert {move.tag for move in week_plan(later).moves} == {s.tag for s in young}


@settings(deadline=None, max_examples=60)
@given(
    st.lists(
        st.tuples(
            st.integers(0, 2), st.integers(70, 240), st.sampled_from(["", "a", "b"]), st.booleans()
        ),
        max_size=9,
    )
)
def test_no_plan_moves_a_pinned_animal_or_breaks_a_limit(
    animals: list[tuple[int, int, str, bool]],
) -> None:
    """Whoever is pinned stays; where nothing is stuck or missing, the plan keeps every limit."""
    tanks = [box("A"), box("B", 1200, 600), box("C", 2000, 1000)]
    swimmers = [
        still(f"{n}", tanks[tank].code, width, litter=litter, pinned=pinned)
        for n, (tank, width, litter, pinned) in enumerate(animals)
    ]
    plan = week_plan(house_week(tanks, swimmers, DEFAULT_LIMITS, begins=TODAY))
    carried = {move.tag: move.to_tank for move in plan.moves}
    assert not [s.tag for s in swimmers if s.pinned and s.tag in carried]
    if not plan.stuck and plan.remedy is None:
        assert kept(tanks, moved(swimmers, carried), TODAY)
