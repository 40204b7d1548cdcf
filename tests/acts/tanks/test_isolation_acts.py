"""Isolation in the book: one clock for shared water, restarted by each arrival, left with a reason."""

from datetime import timedelta
from typing import Any

import pytest
from care_house import TODAY, CareHouse, ago, care_house

from colony.acts.animals.animals import add_animal, end_animal
from colony.acts.tanks.isolation import IsolationLine, isolation_now
from colony.acts.tanks.loads import list_tanks
from colony.acts.tanks.tanks import add_tank, move, set_system
from colony.notation.fields.facts import AnimalFacts
from colony.refusals.animals import StandsAgainst
from colony.refusals.tanks import LeavesIsolationEarly, TankDoesNotFit
from colony.store.book import Book

SIZE = {"length_mm": 2400, "width_mm": 1200}


@pytest.fixture
def house(book: Book) -> CareHouse:
    """The house with a second intake tank on the water of the first."""
    built = care_house(book)
    built.do(add_tank, code="I2", system="Q", role="intake", **SIZE)
    return built


def isolated(house: CareHouse) -> IsolationLine:
    """The clock of the intake."""
    (line,) = house.ask(isolation_now, today=TODAY).isolated
    return line


def test_an_arrival_in_the_same_water_starts_the_clock_again(house: CareHouse) -> None:
    """Nova came five days ago; Rio, today, in another tank of the same system, restarts hers."""
    assert isolated(house).until == ago(5) + timedelta(days=30)
    rio = AnimalFacts(species="motoro", sex="M", arrived=TODAY)
    house.do(add_animal, tag="Rio", facts=rio, tank="I2", today=TODAY)
    line = isolated(house)
    assert (line.since, line.restarted_by, line.tanks) == (TODAY, ["Rio"], ["I1", "I2"])
    until = {one.tank: one.isolated_until for one in house.ask(list_tanks, today=TODAY)}
    assert until["I1"] == until["I2"] == TODAY + timedelta(days=30)


def test_a_move_within_the_water_does_not_start_it_again(house: CareHouse) -> None:
    """From I1 to I2 Nova stays in the same water, and her days count on."""
    house.do(move, tags=["Nova"], tank="I2", on=TODAY, today=TODAY)
    assert isolated(house).since == ago(5)


def test_nothing_leaves_early_without_a_reason_on_record(house: CareHouse) -> None:
    """Refused by the limit, refused without a reason, and kept with it."""
    with pytest.raises(TankDoesNotFit):
        house.do(move, tags=["Nova"], tank="A2", on=TODAY, today=TODAY)
    with pytest.raises(LeavesIsolationEarly, match="Nova"):
        house.do(move, tags=["Nova"], tank="A2", on=TODAY, anyway=True, today=TODAY)
    house.do(move, tags=["Nova"], tank="A2", on=TODAY, anyway=True, why="heater broke", today=TODAY)
    (left,) = house.ask(isolation_now, today=TODAY).left_early
    assert (left.tag, left.to, left.why) == ("Nova", "A2", "heater broke")


def test_a_sale_out_of_isolation_needs_its_reason(house: CareHouse) -> None:
    """Whoever leaves alive before the end leaves with a reason."""
    sale: dict[str, Any] = {"tag": "Nova", "how": "sold", "on": TODAY, "today": TODAY}
    with pytest.raises(StandsAgainst, match="in isolation until"):
        house.do(end_animal, **sale)
    house.do(end_animal, **sale, anyway=True, why="to a friend")
    (left,) = house.ask(isolation_now, today=TODAY).left_early
    assert (left.tag, left.to, left.why) == ("Nova", "sold", "to a friend")


def test_a_death_in_isolation_needs_no_reason(house: CareHouse) -> None:
    """Nobody chooses it, and it is no early leave."""
    house.do(end_animal, tag="Nova", how="died", on=TODAY, today=TODAY)
    assert house.ask(isolation_now, today=TODAY).left_early == ()


def test_after_its_end_isolation_holds_nobody(house: CareHouse) -> None:
    """On the thirtieth day Nova may go."""
    end = ago(5) + timedelta(days=30)
    house.do(move, tags=["Nova"], tank="A2", on=end, today=end)


def test_an_intake_that_shares_open_water_is_named(house: CareHouse) -> None:
    """A grow-out tank on the intake's system shares its water, and is told."""
    house.do(add_tank, code="G9", system="Q", role="grow-out", **SIZE)
    assert isolated(house).shares_water_with == ["G9"]


def test_a_new_system_matures_for_weeks(house: CareHouse) -> None:
    """Six weeks from its start, with those who are in it already."""
    house.do(set_system, name="S2", started=ago(10))
    (line,) = house.ask(isolation_now, today=TODAY).maturing
    assert (line.system, line.mature_from) == ("S2", ago(10) + timedelta(weeks=6))
    assert len(line.animals) == 5
    assert house.ask(isolation_now, today=TODAY + timedelta(days=40)).maturing == ()
