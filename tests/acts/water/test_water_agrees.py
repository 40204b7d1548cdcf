"""The plan of water knows what was changed and fed since a test, and what the new water brings."""

import pytest
from care_house import TODAY, CareHouse, ago, care_house

from colony.acts.book.settings import set_setting
from colony.acts.care.feeding import feed_tank
from colony.acts.care.foods import set_food
from colony.acts.water.changes import change_water
from colony.acts.water.plan import WaterWeek, water_plan
from colony.acts.water.terms import read_terms, say_ammonia
from colony.acts.water.tests import log_test
from colony.notation.readings import parse_reading
from colony.store.book import Book


@pytest.fixture
def house(book: Book) -> CareHouse:
    """A house of three systems."""
    return care_house(book)


def plan(house: CareHouse) -> WaterWeek:
    """The water of the week."""
    week: WaterWeek = house.ask(water_plan, today=TODAY)
    return week


def urgent(week: WaterWeek) -> list[str]:
    """Why each urgent change is made."""
    return [change.why for day in week.days for change in day.changes if change.urgent]


def test_a_change_since_the_test_counts(house: CareHouse) -> None:
    """Ninety before three changes of half are eleven now: nothing is urgent."""
    house.do(log_test, system="S1", values={"nitrite_mg_l": 0.9}, on=ago(4), today=TODAY)
    assert any("nitrite_mg_l" in why for why in urgent(plan(house)))
    for days in (3, 2, 1):
        house.do(change_water, system="S1", litres=1000, on=ago(days), anyway=True, today=TODAY)
    assert any("nitrite_mg_l 0.113" in why for why in urgent(plan(house)))
    house.do(change_water, system="S1", litres=1000, on=TODAY, anyway=True, today=TODAY)
    assert not any("nitrite" in why for why in urgent(plan(house)))


def test_new_water_that_cannot_help_is_named_with_what_would(house: CareHouse) -> None:
    """The tap holds as much as the limit: no litre is laid for it."""
    house.do(set_setting, key="tap_nitrate_mg_l", value="45")
    house.do(log_test, system="S1", values={"nitrate_mg_l": 80}, on=TODAY, today=TODAY)
    week = plan(house)
    assert not any("nitrate" in why for why in urgent(week))
    assert any("water with less than 40 would help" in str(said) for said in week.warnings)


def test_nitrate_that_is_expected_beyond_its_limit_is_urgent(house: CareHouse) -> None:
    """Tested at 30 and fed 400 g of half protein a day since: over 40 before anybody tests."""
    house.do(set_food, name="pellets", protein_percent=50)
    house.do(log_test, system="S1", values={"nitrate_mg_l": 30.0}, on=ago(5), today=TODAY)
    assert not any("nitrate" in why for why in urgent(plan(house)))
    for days in (4, 3, 2, 1):
        house.do(feed_tank, tank="A1", food="pellets", offered_g=400, on=ago(days), today=TODAY)
    assert any("nitrate_mg_l expected" in why for why in urgent(plan(house)))


def test_the_house_says_its_terms_once(house: CareHouse) -> None:
    """Degrees Fahrenheit and ammonia as NH3 are read as such."""
    house.do(set_setting, key="temperature_unit", value="F")
    house.do(say_ammonia, ammonia_as="NH3")
    terms = house.ask(read_terms)
    assert parse_reading("temperature=80.6", terms) == ("temperature_c", 27.0)
    assert parse_reading("temperature=27C", terms) == ("temperature_c", 27.0)
    assert parse_reading("ammonia=0.5", terms) == ("ammonia_nh3_mg_l", 0.5)
    assert parse_reading("ammonia_n=0.5", terms) == ("ammonia_mg_l", 0.5)
