"""A week's moves against brute force, and plans that never break a limit."""

from dataclasses import replace
from datetime import timedelta

from hypothesis import given, settings
from hypothesis import strategies as st
from plain_house import TODAY, arrangements, box, house, houses, kept, still

from colony.planning.tanks.limits import DEFAULT_LIMITS
from colony.planning.tanks.moves import week_plan
from colony.planning.tanks.week import house_week, moved


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
