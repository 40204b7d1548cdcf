"""The day tells what is dangerous first; what is mended is told no more."""

import pytest
from care_house import TODAY, CareHouse, ago, care_house
from sqlmodel import select

from colony.acts.animals.animals import end_animal
from colony.acts.animals.listing import AnimalFilter, list_animals
from colony.acts.book.day import alarms_today, state_of_the_day
from colony.acts.care.headcount import count_heads
from colony.acts.health.answers import answer_alarm
from colony.acts.health.holds import hold
from colony.acts.health.look_over import look_over
from colony.acts.water.tests import log_test
from colony.planning.alarms.alarms import Alarm
from colony.records import AlarmAnswer
from colony.refusals.care import NoSuchAlarm
from colony.store.book import Book


@pytest.fixture
def house(book: Book) -> CareHouse:
    """A house of three systems."""
    return care_house(book)


def alarms(house: CareHouse) -> list[tuple[str, str]]:
    """What is told, and where."""
    found: tuple[Alarm, ...] = house.ask(alarms_today, today=TODAY)
    return [(alarm.what, alarm.where) for alarm in found]


def test_bad_water_is_the_first_thing_of_the_day_until_a_good_test(house: CareHouse) -> None:
    """The values of the issue: none of them was told before."""
    before = alarms(house)
    values = {"temperature_c": 18.0, "ammonia_mg_l": 4.0, "ph": 8.0, "nitrite_mg_l": 3.0}
    house.do(log_test, system="S1", values=values, on=TODAY, today=TODAY)
    told = house.ask(state_of_the_day, today=TODAY).alarms
    assert (told[0].rank, told[0].what, told[0].where) == (1, "water that harms", "S1")
    assert "unionised ammonia 0.161 mg/L (at most 0.02)" in told[0].evidence
    good = {"temperature_c": 27.0, "ammonia_mg_l": 0.0, "ph": 6.8, "nitrite_mg_l": 0.0}
    house.do(log_test, system="S1", values=good, on=TODAY, today=TODAY)
    assert alarms(house) == before


def test_a_short_headcount_is_told_until_it_agrees(house: CareHouse) -> None:
    """Counted again and right, it is over."""
    house.do(count_heads, tank="A1", counted=0, on=TODAY, today=TODAY)
    assert ("heads are missing", "A1") in alarms(house)
    booked = house.do(count_heads, tank="A1", counted=0, on=TODAY, today=TODAY).in_the_book
    house.do(count_heads, tank="A1", counted=len(booked), on=TODAY, today=TODAY)
    assert ("heads are missing", "A1") not in alarms(house)


def test_a_sign_is_told_until_it_is_well_or_held(house: CareHouse) -> None:
    """A hold says that it is known; so does a look-over that finds it well."""
    house.do(look_over, tag="Alma", signs=["thin"], on=ago(1), today=TODAY)
    assert "signs of illness" in dict(alarms(house))
    house.do(look_over, tag="Alma", signs=["well"], on=TODAY, today=TODAY)
    assert "signs of illness" not in dict(alarms(house))
    house.do(look_over, tag="Alma", signs=["pale"], on=TODAY, today=TODAY)
    house.do(hold, tag="Alma", why="pale", on=TODAY, today=TODAY)
    assert "signs of illness" not in dict(alarms(house))


def test_two_deaths_in_one_water_are_told(house: CareHouse) -> None:
    """Of the same system, within two weeks."""
    listed, _ = house.ask(list_animals, wanted=AnimalFilter(tank="N1"), today=TODAY)
    swimmers = [line.tag for line in listed][:2]
    for tag in swimmers:
        house.do(end_animal, tag=tag, how="died", on=TODAY, today=TODAY)
    found = [alarm for alarm in house.ask(alarms_today, today=TODAY) if alarm.rank == 1]
    assert [alarm.what for alarm in found] == ["deaths close together"]
    assert all(tag in found[0].evidence for tag in swimmers)


def test_an_alarm_stays_until_it_is_answered_and_comes_back_on_new_evidence(
    house: CareHouse,
) -> None:
    """The answer is kept with what was told; another head missing is told anew."""
    house.do(count_heads, tank="A1", counted=0, on=ago(40), today=TODAY)
    assert ("heads are missing", "A1") in alarms(house)
    with pytest.raises(NoSuchAlarm, match="There is no alarm of 'A2'"):
        house.do(answer_alarm, place="A2", answer="looked again", today=TODAY)
    done = house.do(answer_alarm, place="a1", answer="found under the filter", today=TODAY)
    assert (done.place, done.alarms) == ("A1", ("heads are missing",))
    assert ("heads are missing", "A1") not in alarms(house)
    (kept,) = house.ask(lambda session: session.exec(select(AlarmAnswer)).all())
    assert kept.answer == "found under the filter"
    house.do(look_over, tank="A1", signs=["thin"], on=TODAY, today=TODAY)
    assert ("signs of illness", "A1") in alarms(house)


def test_a_water_that_drifts_within_its_limits_is_told(house: CareHouse) -> None:
    """Thirty tests of a week each: twenty at 6.8, then a slow fall."""
    for week in range(30):
        value = 6.8 - max(0, week - 19) * 0.1
        on = ago(7 * (30 - week))
        house.do(log_test, system="S1", values={"ph": value}, on=on, today=TODAY)
    assert ("water that drifts", "S1") in alarms(house)
