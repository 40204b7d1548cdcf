"""The round in the book: begun, walked, ticked off, skipped, and there again tomorrow."""

from datetime import date, timedelta

import pytest
from care_house import TODAY, CareHouse, ago, care_house

from colony.acts.book.day import state_of_the_day
from colony.acts.care.feeding import feed_tank
from colony.acts.care.foods import set_food
from colony.acts.care.headcount import count_heads
from colony.acts.care.rhythms import (
    Where,
    begin_round,
    drop_rhythm,
    list_rhythms,
    set_rhythm,
    set_walking_order,
)
from colony.acts.care.round import skip, tick
from colony.acts.care.work import WorkLine, overdue_work, todays_round
from colony.acts.health.holds import hold
from colony.acts.water.changes import Regime, set_regime
from colony.refusals.animals import NotYet
from colony.refusals.care import (
    NoRhythm,
    NoSuchPlace,
    NothingToTick,
    RhythmTwoWays,
    RoundBegun,
    RunBackwards,
    TaskTakesValue,
    WrongPlaceForTask,
)
from colony.store.book import Book

TOMORROW = TODAY + timedelta(days=1)


@pytest.fixture
def house(book: Book) -> CareHouse:
    """The house with the usual rhythms, begun three days ago."""
    built = care_house(book)
    built.do(begin_round, today=ago(3))
    return built


def work(house: CareHouse, task: str, today: date = TODAY) -> dict[str, WorkLine]:
    """Today's work of one task, by place."""
    lines = house.ask(todays_round, today=today)
    return {line.place: line for line in lines if line.task == task}


def test_the_walk_goes_from_clean_to_isolated_water(house: CareHouse) -> None:
    """Tanks in walking order, the intake last, whatever its place on the walk."""
    house.do(set_walking_order, tanks=["I1", "N1", "A1"])
    places = [line.place for line in house.ask(todays_round, today=TODAY)]
    assert list(dict.fromkeys(places)) == ["S2", "N1", "S1", "A1", "Q", "I1"]
    water = {line.system: line.water for line in house.ask(todays_round, today=TODAY)}
    assert water == {"S1": "clean", "S2": "clean", "Q": "isolated"}


def test_a_held_animal_makes_its_water_guarded(house: CareHouse) -> None:
    """A system with a health hold is walked after the clean ones."""
    house.do(hold, tag="Alma", why="thin", on=TODAY, today=TODAY)
    lines = house.ask(todays_round, today=TODAY)
    assert list(dict.fromkeys(line.system for line in lines)) == ["S2", "S1", "Q"]


def test_a_row_of_tanks_is_ticked_at_once(house: CareHouse) -> None:
    """Every tank with animals between two of the walk; the empty one is left out."""
    ticked = house.do(tick, task="look-over", places=["A1..N1"], on=TODAY, today=TODAY)
    assert ticked.places == ("A1", "N1")
    left = work(house, "look-over")
    assert (left["A1"].is_open, left["N1"].is_open) == (False, False)


@pytest.mark.parametrize(
    ("task", "place", "told"),
    [
        ("headcount", "A1", "write down the number that was seen"),
        ("feeding", "A1", "write down the food"),
        ("water test", "S1", "write down what was measured"),
    ],
)
def test_what_takes_a_value_is_never_ticked_off_empty(
    house: CareHouse, task: str, place: str, told: str
) -> None:
    """The refusal names the act that takes it; `all` leaves it open and says so."""
    with pytest.raises(TaskTakesValue, match=told) as refused:
        house.do(tick, task=task, places=[place], on=TODAY, today=TODAY)
    assert [remedy.objects for remedy in refused.value.remedies] == [(place,)]  # type: ignore[union-attr]
    assert work(house, task)[place].is_open
    ticked = house.do(tick, task="all", places=[place], on=TODAY, today=TODAY)
    assert f"{task} at {place}" in ticked.left
    assert work(house, task)[place].is_open
    with pytest.raises(NothingToTick, match="what is open takes a value"):
        house.do(tick, task="all", places=[place], on=TODAY, today=TODAY)


def test_all_that_is_open_in_a_system_is_ticked_with_one_word(house: CareHouse) -> None:
    """Everything due on S2 is done, the tasks of its tanks and its own; done ones are not twice."""
    house.do(tick, task="all", places=["s2"], on=TODAY, today=TODAY)
    open_there = [
        line.task
        for line in house.ask(todays_round, today=TODAY)
        if line.system == "S2" and line.is_open
    ]
    assert open_there == ["water test", "headcount", "feeding"]
    with pytest.raises(NothingToTick):
        house.do(tick, task="pad swap", places=["S2"], on=TODAY, today=TODAY)


def test_a_tank_stands_for_its_system_where_the_task_is_the_systems(house: CareHouse) -> None:
    """The sock of A1 is the sock of S1."""
    assert house.do(tick, task="sock check", places=["A1"], on=TODAY, today=TODAY).places == ("S1",)


def test_what_is_not_done_is_there_tomorrow_and_in_the_state_of_the_day(house: CareHouse) -> None:
    """Fed today, A1 is due tomorrow; not fed, I1 is overdue, and the morning says so."""
    house.do(set_food, name="pellets")
    house.do(feed_tank, tank="A1", food="pellets", on=TODAY, today=TODAY)
    late = house.ask(overdue_work, today=TOMORROW)
    assert ("feeding", "I1") in [(line.task, line.place) for line in late]
    assert ("feeding", "A1") not in [(line.task, line.place) for line in late]
    assert house.ask(state_of_the_day, today=TOMORROW).overdue == tuple(late)


def test_a_skip_needs_its_reason_and_shows_it_tomorrow(house: CareHouse) -> None:
    """Skipped today, the pads are due tomorrow with the reason beside them."""
    house.do(skip, task="pad swap", places=["S1"], why="no pads", on=TODAY, today=TODAY)
    assert not work(house, "pad swap")["S1"].is_open
    after = work(house, "pad swap", TOMORROW)["S1"]
    assert (after.is_open, after.skipped, after.overdue_days) == (True, "no pads", 0)


def test_the_rhythm_of_a_tank_goes_before_that_of_its_role(house: CareHouse) -> None:
    """Three feedings in N1 by its own rhythm; without it the two of the nursery again."""
    own = Where(tank="N1")
    house.do(set_rhythm, task="feeding", where=own, times_a_day=3, today=TODAY)
    assert work(house, "feeding")["N1"].wanted == 3
    house.do(drop_rhythm, task="feeding", where=own)
    assert work(house, "feeding")["N1"].wanted == 2
    with pytest.raises(NoRhythm):
        house.do(drop_rhythm, task="feeding", where=own)


def test_setting_a_rhythm_again_mends_it(house: CareHouse) -> None:
    """One rhythm for one task at one place, however often it is set."""
    before = len(house.ask(list_rhythms))
    house.do(set_rhythm, task="pad swap", where=Where(), every_days=14, today=TODAY)
    lines = house.ask(list_rhythms)
    assert len(lines) == before
    assert [line.every_days for line in lines if line.task == "pad swap"] == [14]


def test_a_batch_change_of_the_regime_is_work_of_the_round(house: CareHouse) -> None:
    """Its rhythm comes from the regime, and ticking it off changes the regime's litres."""
    house.do(set_regime, system="S1", regime=Regime(25, 7), today=TODAY)
    assert work(house, "water change")["S1"].is_open
    house.do(tick, task="water change", places=["S1"], on=TODAY, today=TODAY)
    assert not work(house, "water change")["S1"].is_open
    assert "S1" not in work(house, "water change", TOMORROW)


def test_a_headcount_that_does_not_agree_is_named(house: CareHouse) -> None:
    """Four seen, five in the book: the tags of the five are told, and the count is ticked off."""
    counted = house.do(count_heads, tank="N1", counted=4, on=TODAY, today=TODAY)
    assert len(counted.in_the_book) == 5
    assert "25-01-1" in counted.warnings[0]
    assert not work(house, "headcount")["N1"].is_open
    assert house.do(count_heads, tank="A1", counted=2, on=TODAY, today=TODAY).warnings == ()


def test_words_that_are_no_place_are_refused(house: CareHouse) -> None:
    """An unknown tank, a row that ends before it begins, a day that has not come."""
    with pytest.raises(NoSuchPlace, match="A9"):
        house.do(tick, task="feeding", places=["A9"], on=TODAY, today=TODAY)
    with pytest.raises(RunBackwards):
        house.do(tick, task="feeding", places=["N1..A1"], on=TODAY, today=TODAY)
    with pytest.raises(NotYet):
        house.do(tick, task="feeding", places=["A1"], on=TOMORROW, today=TODAY)


def test_rhythms_that_cannot_be_are_refused(house: CareHouse) -> None:
    """Twice a day every week, a pad swap of a tank, a second beginning."""
    with pytest.raises(RhythmTwoWays):
        house.do(
            set_rhythm, task="feeding", where=Where(), times_a_day=2, every_days=7, today=TODAY
        )
    with pytest.raises(RhythmTwoWays):
        house.do(set_rhythm, task="feeding", where=Where(tank="A1", role="nursery"), today=TODAY)
    with pytest.raises(WrongPlaceForTask):
        house.do(set_rhythm, task="pad swap", where=Where(tank="A1"), today=TODAY)
    with pytest.raises(RoundBegun):
        house.do(begin_round, today=TODAY)
