"""Water in the book: regimes, changes, the reserve, tests and limits, the week's plan."""

from datetime import date

import pytest
from care_house import TODAY, CareHouse, ago, care_house

from colony.acts.book.settings import set_setting
from colony.acts.care.feeding import feed_tank
from colony.acts.care.foods import set_food
from colony.acts.litters.due import due_litters
from colony.acts.pairings.pairings import note_finding, note_sign, start_pairing
from colony.acts.pups.measure import measure
from colony.acts.tanks.tanks import add_tank, set_system
from colony.acts.water.changes import Regime, change_water, reserve_now, set_regime, set_reserve
from colony.acts.water.nitrate import nitrate_outlook
from colony.acts.water.plan import WaterWeek, water_plan
from colony.acts.water.tests import list_limits, log_test, set_limit, water_now, water_trend
from colony.planning.water.nitrate import nitrate_from_food_mg
from colony.refusals.water import (
    LimitUnclear,
    MoreThanTheLimit,
    MoreThanTheSystem,
    NoRegime,
    NoVolume,
    RegimeUnclear,
    ReserveLevelTooHigh,
)
from colony.store.book import Book


@pytest.fixture
def house(book: Book) -> CareHouse:
    """S1 is changed by a quarter a week, S2 drips 50 L a day, Q a fifth every third day."""
    built = care_house(book)
    built.do(set_regime, system="S1", regime=Regime(25, 7), today=ago(30))
    built.do(set_regime, system="S2", regime=Regime(drip_l_a_day=50), today=ago(30))
    built.do(set_regime, system="Q", regime=Regime(20, 3, most_percent_a_day=40), today=ago(30))
    return built


def plan(house: CareHouse) -> WaterWeek:
    """The week's plan."""
    return house.ask(water_plan, today=TODAY)


def litres(week: WaterWeek, system: str) -> list[int]:
    """Litres laid for a system on each day."""
    return [sum(c.litres for c in day.changes if c.system == system) for day in week.days]


def test_the_reserve_follows_from_its_last_reading(house: CareHouse) -> None:
    """400 L read two days ago, less a change of 100 and two drips of 50, and two nights of 120."""
    house.do(set_reserve, capacity_l=1000, refill_l=120, level_l=400, today=ago(2))
    house.do(change_water, system="S1", litres=100, on=ago(2), today=TODAY)
    now = house.ask(reserve_now, today=TODAY)
    assert now is not None
    assert (now.capacity_l, now.level_l, now.drip_l_a_day) == (1000, 440, 50)
    house.do(change_water, system="S1", litres=40, on=TODAY, today=TODAY)
    later = house.ask(reserve_now, today=TODAY)
    assert later is not None
    assert later.level_l == 400


def test_a_reserve_never_read_was_full_a_month_ago_and_is_never_below_nothing(
    house: CareHouse,
) -> None:
    """With nights that bring more than the drip it is full; more drawn than was there leaves nothing."""
    house.do(set_reserve, capacity_l=300, refill_l=60, today=TODAY)
    now = house.ask(reserve_now, today=TODAY)
    assert now is not None
    assert now.level_l == 300
    house.do(change_water, system="S1", litres=900, on=ago(1), today=TODAY)
    empty = house.ask(reserve_now, today=TODAY)
    assert empty is not None
    assert empty.level_l == 60


def test_the_week_is_laid_within_the_reserve(house: CareHouse) -> None:
    """Everything fits: a quarter of S1 once, a fifth of Q in its rhythm, and 50 L drip a day."""
    house.do(set_reserve, capacity_l=1000, refill_l=300, level_l=1000, today=TODAY)
    week = plan(house)
    assert week.fits
    assert week.relief is None
    assert [day.drip_l for day in week.days] == [50] * 7
    assert sum(litres(week, "S1")) == 500
    assert set(litres(week, "Q")) <= {0, 100}
    assert all((day.left_l or 0) >= 0 for day in week.days)
    (change,) = [c for day in week.days for c in day.changes if c.system == "S1"]
    assert (change.percent, change.minutes, change.tanks) == (25.0, 10 + 25, ["A1", "A2"])


def test_a_week_that_is_short_says_by_how_much_and_what_would_be_enough(house: CareHouse) -> None:
    """120 L to begin with and 50 L a night only feed the drip: 700 L of changes are short by 580."""
    house.do(set_reserve, capacity_l=2000, refill_l=50, level_l=170, today=TODAY)
    week = plan(house)
    wanted = 500 + 100 * sum(1 for day in litres_of_q(house))
    laid = sum(litres(week, "S1")) + sum(litres(week, "Q"))
    assert not week.fits
    assert sum(week.short_l.values()) == wanted - laid == wanted - 120
    assert week.relief is not None
    assert week.relief.more_today_l is not None
    house.do(set_reserve, level_l=170 + week.relief.more_today_l, today=TODAY)
    assert plan(house).fits


def litres_of_q(house: CareHouse) -> list[int]:
    """The changes of Q in a week with all the water that can be wished for."""
    house.do(set_setting, key="reserve_l", value="0")
    changes = [litre for litre in litres(plan(house), "Q") if litre]
    house.do(set_setting, key="reserve_l", value="2000")
    return changes


def test_a_bad_test_goes_first_and_within_the_limit_of_a_day(house: CareHouse) -> None:
    """Nitrate of 120 where 40 is the limit: a third may stay, so two changes of 42.3 %, today first."""
    house.do(set_reserve, capacity_l=2000, refill_l=1000, level_l=2000, today=TODAY)
    house.do(log_test, system="S1", values={"nitrate_mg_l": 120.0}, on=TODAY, today=TODAY)
    week = plan(house)
    assert litres(week, "S1")[:2] == [846, 846]
    (first,) = [c for c in week.days[0].changes if c.system == "S1"]
    assert first.urgent
    assert "nitrate" in first.why


def test_a_full_tank_and_a_litter_hurry_their_systems(house: CareHouse) -> None:
    """S1 waits for Alma's litter; Q is loaded above its limit; both are laid today as urgent."""
    house.do(set_reserve, capacity_l=2000, refill_l=1000, level_l=2000, today=TODAY)
    house.do(start_pairing, dam="Alma", sires=["Bruno"], on=ago(55), today=TODAY)
    assert not any(c.urgent for c in plan(house).days[0].changes)
    house.do(measure, tag="Nova", width_mm=1400, on=TODAY, anyway=True, today=TODAY)
    urgent = {c.system: c.why for c in plan(house).days[0].changes if c.urgent}
    assert urgent == {"Q": "loaded above its limit"}


def test_a_litter_that_is_due_hurries_its_system(house: CareHouse) -> None:
    """Seen pregnant, on the likely day of birth: S1 is changed today for the litter."""
    house.do(start_pairing, dam="Alma", sires=["Bruno"], on=ago(59), today=TODAY)
    house.do(note_sign, dam="Alma", kind="copulation", on=ago(58), today=TODAY)
    house.do(note_finding, dam="Alma", finding="pregnant", method="look", on=ago(1), today=TODAY)
    (litter,) = house.ask(due_litters, today=TODAY)
    week = house.ask(water_plan, today=litter.likely)
    assert {c.system: c.why.split(" from")[0] for c in week.days[0].changes if c.urgent} == {
        "S1": "litter due"
    }


def test_clean_systems_are_changed_before_isolated_ones(house: CareHouse) -> None:
    """On one day the intake is last, also when it is the one that is urgent."""
    house.do(set_reserve, capacity_l=5000, refill_l=5000, level_l=5000, today=TODAY)
    house.do(set_regime, system="S1", regime=Regime(25, 1), today=TODAY)
    house.do(log_test, system="Q", values={"nitrate_mg_l": 60.0}, on=TODAY, today=TODAY)
    assert [c.system for c in plan(house).days[0].changes] == ["S1", "Q"]


def test_what_no_change_corrects_is_said(house: CareHouse) -> None:
    """A pH of 5 and a temperature of 35 are named and no litres are laid for them."""
    house.do(
        log_test, system="S1", values={"ph": 5.0, "temperature_c": 35.0}, on=TODAY, today=TODAY
    )
    week = plan(house)
    assert not any(c.urgent for day in week.days for c in day.changes)
    assert sum("no change of water mends" in str(line) for line in week.warnings) == 2


def test_a_test_is_held_to_the_strictest_species_in_the_water(house: CareHouse) -> None:
    """A limit for leopoldi holds S1 and not Q, where a motoro lives; its source is told."""
    house.do(
        set_limit, parameter="nitrate_mg_l", species="leopoldi", low=None, high=20, source="own"
    )
    warned = {
        system: house.do(
            log_test, system=system, values={"nitrate_mg_l": 30.0}, on=TODAY, today=TODAY
        ).warnings
        for system in ("S1", "Q")
    }
    assert "most 20; own" in warned["S1"][0]
    assert warned["Q"] == ()


def test_un_ionised_ammonia_is_computed_from_one_test(house: CareHouse) -> None:
    """1 mg/L as N at pH 8 and 25 C: 0.05366 of it un-ionised (Emerson et al. 1975), told as NH3."""
    values = {"ammonia_mg_l": 1.0, "ph": 8.0, "temperature_c": 25.0}
    house.do(log_test, system="S1", values=values, on=TODAY, today=TODAY)
    lines = {line.parameter: line for line in house.ask(water_now, system="S1", today=TODAY)}
    part = lines["unionised_ammonia_mg_l"]
    assert part.value == pytest.approx(0.05366 * 17.031 / 14.007, abs=5e-5)
    assert not part.within
    assert part.source is not None


def test_an_old_test_says_nothing_of_today(house: CareHouse) -> None:
    """After two weeks a test is history, after four nothing is expected from it."""
    house.do(log_test, system="S1", values={"nitrate_mg_l": 500.0}, on=ago(29), today=TODAY)
    assert house.ask(water_now, system="S1", today=TODAY) == []
    assert not any(c.urgent for day in plan(house).days for c in day.changes)


def test_every_limit_has_its_source_and_an_own_one_replaces_the_usual(house: CareHouse) -> None:
    """The book's own limit for all stands in place of the usual one."""
    house.do(set_limit, parameter="ph", low=5.5, high=7.0, source="vet's advice")
    lines = [one for one in house.ask(list_limits) if one.parameter == "ph"]
    assert [(line.low, line.high, line.source, line.own) for line in lines] == [
        (5.5, 7.0, "vet's advice", True)
    ]
    assert all(one.source for one in house.ask(list_limits))
    with pytest.raises(LimitUnclear):
        house.do(set_limit, parameter="ph", low=7, high=6, source="own")


def test_a_trend_is_drawn_with_its_limit(house: CareHouse) -> None:
    """Three tests make three stars below a dashed limit, oldest on the left."""
    for days_ago, value in ((20, 10.0), (10, 20.0), (0, 30.0)):
        house.do(
            log_test, system="S1", values={"nitrate_mg_l": value}, on=ago(days_ago), today=TODAY
        )
    trend = house.ask(water_trend, system="S1", parameter="nitrate_mg_l", today=TODAY)
    assert [value for _, value in trend.points] == [10, 20, 30]
    stars = [line.index("*") for line in trend.drawn if "*" in line]
    assert stars == sorted(stars, reverse=True)
    assert len(stars) == 3
    assert "----" in trend.drawn[0]


def test_expected_nitrate_follows_food_and_changes_since_the_test(house: CareHouse) -> None:
    """From 20 mg/L, 100 g of worms with 10 % protein and then half of the water changed."""
    house.do(set_food, name="worms", protein_percent=10)
    house.do(log_test, system="S1", values={"nitrate_mg_l": 20.0}, on=ago(3), today=TODAY)
    house.do(feed_tank, tank="A1", food="worms", offered_g=100, on=ago(2), today=TODAY)
    house.do(feed_tank, tank="A1", food="worms", on=ago(2), today=TODAY)
    house.do(change_water, system="S1", litres=1000, on=ago(1), today=TODAY)
    found = house.ask(nitrate_outlook, system="S1", today=TODAY)
    expected = (20 + nitrate_from_food_mg(100, 0.10) / 2000) / 2
    assert found.expected_mg_l == pytest.approx(expected, abs=0.05)
    assert found.left_out == 1
    assert found.long_run_mg_l == pytest.approx(
        nitrate_from_food_mg(100, 0.10) / 3 * 7 / 2000 / 0.25, abs=0.05
    )


def test_changes_that_cannot_be_are_refused_and_large_ones_warned_of(house: CareHouse) -> None:
    """More than the system holds, no volume, no regime; above the limit it is written and said."""
    with pytest.raises(MoreThanTheSystem):
        house.do(change_water, system="S1", litres=2001, on=TODAY, today=TODAY)
    with pytest.raises(NoRegime):
        house.do(change_water, system="S2", on=TODAY, today=TODAY)
    with pytest.raises(RegimeUnclear):
        house.do(set_regime, system="S1", regime=Regime(), today=TODAY)
    with pytest.raises(MoreThanTheLimit):
        house.do(set_regime, system="S1", regime=Regime(60, 7), today=TODAY)
    house.do(set_reserve, capacity_l=100, today=TODAY)
    with pytest.raises(ReserveLevelTooHigh):
        house.do(set_reserve, level_l=101, today=TODAY)
    large = house.do(change_water, system="S1", litres=1200, on=TODAY, anyway=True, today=TODAY)
    assert "60 %" in large.warnings[-1]


def test_a_system_without_a_volume_is_named_and_not_planned(house: CareHouse) -> None:
    """Nobody can plan a change of an unknown volume; the plan says how to tell it."""
    house.do(set_system, name="X")
    house.do(add_tank, code="X1", system="X", role="grow-out", diameter_mm=2000)
    assert any(str(line).startswith("X has no volume") for line in plan(house).warnings)
    with pytest.raises(NoVolume):
        house.do(change_water, system="X", litres=5, on=TODAY, today=TODAY)


def test_a_system_without_tanks_can_be_filled_and_tested(house: CareHouse) -> None:
    """A new filter that runs alone has its water changed and tested, and is not planned."""
    house.do(set_system, name="New", volume_l=800, started=ago(5))
    assert house.do(change_water, system="New", litres=200, on=TODAY, today=TODAY).percent == 25
    house.do(log_test, system="New", values={"ph": 7.0}, on=TODAY, today=TODAY)
    assert not any(c.system == "New" for day in plan(house).days for c in day.changes)


def test_the_days_of_the_plan_are_the_days_to_come(house: CareHouse) -> None:
    """Seven days from today on."""
    assert [day.on for day in plan(house).days] == [
        date.fromordinal(TODAY.toordinal() + n) for n in range(7)
    ]
