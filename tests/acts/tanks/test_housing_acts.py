"""The outlook, the plan, and the work list that comes of it."""

from datetime import timedelta
from typing import Any

import pytest
from growing_house import TODAY, GrowingHouse, furnished
from sqlmodel import Session

from colony.acts.animals.animals import end_animal
from colony.acts.book.day import state_of_the_day
from colony.acts.book.settings import set_setting
from colony.acts.book.undo import undo_last
from colony.acts.pups.ready import ready_pups
from colony.acts.tanks.loads import list_tanks
from colony.acts.tanks.moves import MoveLine, PlannedMove, accept_moves, drop_moves, list_moves
from colony.acts.tanks.outlook import (
    TankAhead,
    accept_plan,
    moves_to_accept,
    plan_tanks,
    tank_outlook,
)
from colony.acts.tanks.tanks import move
from colony.planning.tanks.plan import HousingPlan
from colony.refusals.animals import NoSuchTag
from colony.store.book import Book
from colony.store.lookup import find_tank


@pytest.fixture
def house(book: Book) -> GrowingHouse:
    """Seven pups of 19 cm in G1 of 2 x 1 m, litter 25-01: 10 % of its floor; G2 is empty."""
    house = furnished(book)
    for tag in house.litter("Alma", "4F3M", 120, "G1"):
        house.measure(tag, 160, 60)
        house.measure(tag, 190)
    return house


def ahead(house: GrowingHouse, **facts: Any) -> dict[str, TankAhead]:  # noqa: ANN401 - as the act has them
    """The outlook by tank."""
    known = {"weeks": 8, "sales_per_week": 0.0, "today": TODAY} | facts
    return {tank_load.tank: tank_load for tank_load in house.ask(tank_outlook, **known)}


def plan(house: GrowingHouse, **facts: Any) -> HousingPlan:  # noqa: ANN401 - the same
    """A plan without sales."""
    known = {"weeks": 2, "sales_per_week": 0.0, "today": TODAY} | facts
    found: HousingPlan = house.ask(plan_tanks, **known)
    return found


def crowd(house: GrowingHouse, limit: float = 0.09) -> None:
    """Let seven pups be too many for G1."""
    house.do(set_setting, key="load_limit", value=str(limit))


def work(house: GrowingHouse) -> list[MoveLine]:
    """The work list."""
    found: list[MoveLine] = house.ask(list_moves, today=TODAY)
    return found


def test_the_outlook_begins_with_the_house_of_today(house: GrowingHouse) -> None:
    """Loads of today are those of the tank list, and grow with the pups week by week."""
    listed = {tank_load.tank: tank_load.load for tank_load in house.ask(list_tanks, today=TODAY)}
    seen = ahead(house)
    assert {tank: tank_load.loads[0] for tank, tank_load in seen.items()} == pytest.approx(
        listed, abs=0.003
    )
    loads = [load or 0 for load in seen["G1"].loads]
    assert len(loads) == 9
    assert loads == sorted(loads)
    assert loads[-1] > loads[0]
    assert seen["G1"].animals == [7] * 9


def test_due_pups_come_into_their_nursery_on_the_likely_day(house: GrowingHouse) -> None:
    """As many as the colony's litters had, seven, in the tank that is allotted."""
    house.mated("Bella", "Bruno", 150)
    due = house.due()["Bella"]
    weeks = 2 + (due.likely - TODAY).days // 7
    nursery = ahead(house, weeks=weeks)[due.nursery_tank or ""]
    assert nursery.animals[0] == 0
    assert nursery.animals[-1] == 7
    assert ahead(house, weeks=weeks)["B1"].animals == [3] * (weeks + 1)


def test_expected_sales_empty_a_tank(house: GrowingHouse) -> None:
    """Ready pups leave in turn, so many a week; without a number, as lately: nobody."""
    for tag in [pup.tag for pup in house.ask(ready_pups, everybody=True, today=TODAY)]:
        house.fed(tag, 20)
    assert ahead(house, sales_per_week=2.0)["G1"].animals[:5] == [7, 5, 3, 1, 0]
    assert ahead(house, sales_per_week=None)["G1"].animals[-1] == 7
    house.do(end_animal, tag="25-01-7", how="sold", on=TODAY, today=TODAY)
    house.do(end_animal, tag="25-01-6", how="sold", on=TODAY, today=TODAY)
    assert ahead(house, weeks=12, sales_per_week=None)["G1"].animals[-1] < 5


def test_the_first_day_of_each_broken_limit_is_named(house: GrowingHouse) -> None:
    """Load limit at 11 %: G1 breaks it on a day, not before; a higher limit never."""
    crowd(house, 0.11)
    (broken,) = ahead(house)["G1"].breaks
    assert TODAY < broken["day"] < TODAY + timedelta(weeks=8)
    assert broken["rule"] == "load"
    crowd(house, 0.5)
    assert ahead(house)["G1"].breaks == []


@pytest.mark.parametrize(
    ("key", "value", "rule"),
    [("widths_across", "6", "tank_width"), ("widths_along", "12", "tank_length")],
)
def test_every_limit_of_the_book_is_kept(
    house: GrowingHouse, key: str, value: str, rule: str
) -> None:
    """A stricter limit is broken in the list, in the outlook and in the plan alike."""
    assert plan(house).animals_moved == 0
    house.do(set_setting, key=key, value=value)
    assert rule in {limit["rule"] for limit in ahead(house)["G1"].breaks}
    assert next(t for t in house.ask(list_tanks, today=TODAY) if t.tank == "G1").breaks
    found = plan(house)
    assert found.animals_moved or found.first_impossible is not None


def test_the_size_spread_is_a_setting(house: GrowingHouse) -> None:
    """A stranger of 12 cm beside pups of 19 is fine at 2 times, and not at 1.2 times."""
    (small,) = house.litter("Bella", "1F", 60, "G1")
    house.measure(small, 120)
    assert ahead(house, weeks=1)["G1"].breaks == []
    house.do(set_setting, key="size_spread", value="1.2")
    assert [limit["rule"] for limit in ahead(house, weeks=1)["G1"].breaks] == ["size_spread"]


def test_a_mended_width_changes_the_outlook_and_the_plan(house: GrowingHouse) -> None:
    """Pups narrower than first written fill less of the floor: no move is needed any more."""
    crowd(house)
    assert plan(house).animals_moved > 0
    for n in range(1, 8):
        house.measure(f"25-01-{n}", 165)
    assert ahead(house)["G1"].loads[0] == pytest.approx(7 * 0.785398 * 0.165**2 / 2, abs=0.003)
    assert plan(house, weeks=1).animals_moved == 0


def test_a_plan_moves_the_fewest_and_nobody_by_itself(house: GrowingHouse) -> None:
    """One pup too many goes to the empty tank; everybody is still where they were."""
    crowd(house)
    (week, *_) = plan(house).weeks
    assert [move.from_tank for move in week.moves] == ["G1"]
    assert week.moves[0].to_tank == "G2"
    assert week.moves[0].litter == "25-01"
    assert week.optimal
    assert work(house) == []
    assert ahead(house)["G1"].animals[0] == 7


def test_pups_past_their_stay_do_not_go_back_into_a_nursery(house: GrowingHouse) -> None:
    """With G2 in use by others, P1 and P2 are left to those who will be born."""
    crowd(house)
    for tag in house.litter("Bella", "7F", 120, "G2"):
        house.measure(tag, 190)
    (week, *_) = plan(house, weeks=1).weeks
    assert not {move.to_tank for move in week.moves} & {"P1", "P2"}
    assert week.remedy is not None
    assert week.impossible


def test_an_accepted_plan_is_a_work_list_that_moving_ticks_off(house: GrowingHouse) -> None:
    """On the list after accepting; off it after the move, whose undo brings it back."""
    crowd(house)
    proposed = plan(house)
    accepted = house.do(accept_plan, plan=proposed, today=TODAY)
    assert work(house) == accepted
    (line,) = accepted
    assert (line.from_tank, line.to_tank, line.litter) == ("G1", "G2", "25-01")
    assert not line.overdue
    house.do(move, tags=[line.tag], tank="G2", on=TODAY, anyway=True, today=TODAY)
    assert work(house) == []
    house.do(undo_last)
    assert work(house) == accepted
    house.do(undo_last)
    assert work(house) == []


def test_a_move_elsewhere_does_not_tick_it_off(house: GrowingHouse) -> None:
    """It stays on the list, from where the animal is now."""
    crowd(house)
    (line,) = house.do(accept_plan, plan=plan(house), today=TODAY)
    house.do(move, tags=[line.tag], tank="P1", on=TODAY, anyway=True, today=TODAY)
    (left,) = work(house)
    assert (left.tag, left.from_tank, left.to_tank) == (line.tag, "P1", "G2")


def test_a_new_plan_takes_the_place_of_the_old_list(house: GrowingHouse) -> None:
    """What was left of an older plan could break the newer one: it is dropped.

    The move of a dam for her pairing stays.
    """
    crowd(house)
    (first,) = house.do(accept_plan, plan=plan(house), today=TODAY)
    other = next(f"25-01-{n}" for n in range(1, 8) if f"25-01-{n}" != first.tag)
    house.tank("B2", "breeding", 4000, 2000)
    by_hand = [PlannedMove(other, "P1", TODAY, "asked"), PlannedMove("Alma", "B2", TODAY, "paired")]
    house.do(accept_moves, moves=by_hand, today=TODAY)
    assert {task.tag for task in work(house)} == {first.tag, other, "Alma"}
    house.do(accept_plan, plan=plan(house), today=TODAY)
    assert {task.tag for task in work(house)} == {first.tag, "Alma"}


def test_one_that_was_sold_is_on_no_work_list(house: GrowingHouse) -> None:
    """Nobody looks for it."""
    crowd(house)
    (line,) = house.do(accept_plan, plan=plan(house), today=TODAY)
    house.do(end_animal, tag=line.tag, how="sold", on=TODAY, today=TODAY)
    assert work(house) == []


def test_a_line_past_its_day_is_late_and_can_be_dropped(house: GrowingHouse) -> None:
    """Two days on it is late; taken off the list it is gone, and a wrong tag is refused."""
    crowd(house)
    (line,) = house.do(accept_plan, plan=plan(house), today=TODAY)
    (late,) = house.ask(list_moves, today=line.by + timedelta(days=2))
    assert late.overdue
    with pytest.raises(NoSuchTag):
        house.do(drop_moves, tags=["nobody"], today=TODAY)
    assert house.do(drop_moves, tags=[line.tag], today=TODAY) == 1
    assert work(house) == []


def test_pups_that_are_not_born_are_on_no_list(house: GrowingHouse) -> None:
    """Without a nursery the litter lies beside its dam and is planned for, but not accepted."""
    for code in ("P1", "P2"):
        house.do(_retire, code=code)
    house.mated("Bella", "Bruno", 178)
    due = house.due()["Bella"]
    assert due.nursery_tank is None
    found = plan(house, weeks=1 + (due.likely - TODAY).days // 7)
    expected = [move for week in found.weeks for move in week.moves if move.expected]
    assert {move.tag.split(" of ")[1] for move in expected} == {"Bella"}
    assert not [move for move in moves_to_accept(found) if "Bella" in move.tag]
    assert house.do(accept_plan, plan=found, today=TODAY) == work(house)


def test_nobody_leaves_isolation_by_a_plan(house: GrowingHouse) -> None:
    """An arrival in intake is in no move, however crowded its tank is."""
    house.tank("I1", "intake", 1000, 500)
    house.animal("Nova", "F", "I1")
    crowd(house, 0.05)
    found = plan(house)
    assert "Nova" not in {move.tag for week in found.weeks for move in week.moves}
    assert "I1" not in {move.to_tank for week in found.weeks for move in week.moves}


def test_the_day_names_a_tank_that_overflows_within_two_weeks(house: GrowingHouse) -> None:
    """In order today, over the limit in a fortnight: a line in the morning, as in the outlook."""
    now = ahead(house)["G1"].loads[0] or 0
    crowd(house, round(now + 0.002, 4))
    state = house.ask(state_of_the_day, today=TODAY)
    assert [tank_load.tank for tank_load in state.overflowing] == ["G1"]
    assert state.overfull == ()
    assert ahead(house)["G1"].breaks[0]["day"] <= TODAY + timedelta(days=14)
    crowd(house, 0.5)
    assert house.ask(state_of_the_day, today=TODAY).overflowing == ()


def _retire(session: Session, code: str) -> None:
    tank = find_tank(session, code)
    tank.retired_on = TODAY
    session.add(tank)
