"""Health in the book: look-overs, vet visits, a death on one page, survival of the litters."""

from datetime import timedelta

import pytest
from care_house import TODAY, CareHouse, ago, care_house

from colony.acts.animals.animals import end_animal
from colony.acts.care.feeding import feed_tank
from colony.acts.care.foods import add_batch, set_food
from colony.acts.care.rhythms import begin_round
from colony.acts.care.work import todays_round
from colony.acts.health.deaths import death_page, list_deaths
from colony.acts.health.look_over import list_signs, look_over
from colony.acts.health.survival import survival_by
from colony.acts.health.vet_visits import VetReport, list_visits, record_visit
from colony.acts.litters.edit import edit_litter
from colony.acts.litters.record import record_litter
from colony.acts.tanks.tanks import move
from colony.acts.water.changes import change_water
from colony.acts.water.tests import log_test
from colony.notation.fields.facts import LitterFacts
from colony.notation.pups import parse_pups
from colony.notation.shares import parse_sires
from colony.refusals.health import (
    LookOverOfWhom,
    NobodySeenByVet,
    NotDead,
    NothingToSurvive,
    WellAndSick,
)
from colony.store.book import Book

PUP = "25-01-1"


@pytest.fixture
def house(book: Book) -> CareHouse:
    """The house of the care."""
    return care_house(book)


def test_signs_are_kept_of_an_animal_or_of_a_tank(house: CareHouse) -> None:
    """A sign of Nova, one of somebody in N1; all well is kept too, and not shown as a sign."""
    house.do(look_over, tag="nova", signs=["thin", "pale"], on=ago(1), today=TODAY)
    house.do(look_over, tank="N1", signs=["fast breathing"], on=TODAY, today=TODAY)
    house.do(look_over, tank="A1", on=TODAY, today=TODAY)
    seen = [(one.animal, one.tank, one.sign) for one in house.ask(list_signs)]
    assert seen == [
        (None, "N1", "fast breathing"),
        ("Nova", None, "pale"),
        ("Nova", None, "thin"),
    ]
    assert len(house.ask(list_signs, well_too=True)) == 4
    assert len(house.ask(list_signs, tag="Nova")) == 2


def test_looking_a_tank_over_ticks_it_off(house: CareHouse) -> None:
    """The round knows that A1 was looked over."""
    house.do(begin_round, today=TODAY)
    house.do(look_over, tank="A1", on=TODAY, today=TODAY)
    lines = {(one.task, one.place): one for one in house.ask(todays_round, today=TODAY)}
    assert not lines["look-over", "A1"].is_open
    assert lines["look-over", "N1"].is_open


def test_look_overs_of_nobody_and_of_both_are_refused(house: CareHouse) -> None:
    """An animal or a tank, and all well or a sign."""
    with pytest.raises(LookOverOfWhom):
        house.do(look_over, on=TODAY, today=TODAY)
    with pytest.raises(LookOverOfWhom):
        house.do(look_over, tag="Alma", tank="A1", on=TODAY, today=TODAY)
    with pytest.raises(WellAndSick):
        house.do(look_over, tag="Alma", signs=["well", "thin"], on=TODAY, today=TODAY)


def test_a_prescription_is_kept_word_for_word(house: CareHouse) -> None:
    """What the vet wrote is what the book shows, for each animal that was seen."""
    words = "As I wrote it: see sheet, twice; recheck in 10 d"
    report = VetReport("Dr. Example", "thin", "parasites", [words])
    house.do(record_visit, report=report, animals=["Alma", "Bruno", "alma"], on=TODAY, today=TODAY)
    (visit,) = house.ask(list_visits, tag="Bruno")
    assert visit.prescriptions == (words,)
    assert visit.animals == ("Alma", "Bruno")
    assert house.ask(list_visits, tag="Nova") == []
    with pytest.raises(NobodySeenByVet):
        house.do(record_visit, report=report, animals=[], on=TODAY, today=TODAY)


def test_a_death_stands_on_one_page_with_the_weeks_before_it(house: CareHouse) -> None:
    """Tanks, company, moves, water, food batch, refusals, signs, vet and litter-mates together."""
    house.do(set_food, name="worms")
    house.do(add_batch, food="worms", code="B7", received=ago(20), today=TODAY)
    house.do(feed_tank, tank="N1", food="worms", taken="none", on=ago(3), today=TODAY)
    house.do(log_test, system="S2", values={"ph": 5.1}, on=ago(4), today=TODAY)
    house.do(change_water, system="S2", litres=300, on=ago(4), today=TODAY)
    house.do(move, tags=["25-01-5"], tank="A2", on=ago(2), anyway=True, today=TODAY)
    house.do(look_over, tank="N1", signs=["pale"], on=ago(2), today=TODAY)
    house.do(look_over, tag=PUP, signs=["lethargic"], on=ago(1), today=TODAY)
    house.do(
        record_visit, report=VetReport("Dr. Example", "pale"), animals=[PUP], on=ago(1), today=TODAY
    )
    house.do(end_animal, tag="25-01-2", how="died", on=ago(1), today=TODAY)
    house.do(end_animal, tag=PUP, how="died", on=TODAY, why="not known", today=TODAY)
    page = house.ask(death_page, tag=PUP)
    (stay,) = page.stays
    assert (stay.tank, stay.system, len(stay.company)) == ("N1", "S2", 4)
    assert {one.what for one in page.water} == {"S2: ph 5.1", "S2: 300 L changed"}
    assert "batch B7" in page.food[0].what
    assert [one.what for one in page.refused] == ["refused worms"]
    assert {sign.sign for sign in page.signs} == {"pale", "lethargic"}
    assert len(page.vet_visits) == 1
    assert {mate.tag: mate.status for mate in page.litter_mates}["25-01-2"] == "died"
    assert (page.age_days, page.litter) == (60, "25-01")
    assert [one.tag for one in house.ask(list_deaths)] == [PUP, "25-01-2"]


def test_only_the_weeks_before_and_the_own_tanks_are_on_the_page(house: CareHouse) -> None:
    """Water of another system, and of two months ago, is no part of it."""
    house.do(log_test, system="S1", values={"ph": 5.0}, on=ago(3), today=TODAY)
    house.do(log_test, system="S2", values={"ph": 6.0}, on=ago(50), today=TODAY)
    house.do(end_animal, tag=PUP, how="died", on=TODAY, today=TODAY)
    assert house.ask(death_page, tag=PUP).water == ()
    with pytest.raises(NotDead):
        house.ask(death_page, tag="Alma")


def test_survival_follows_pups_until_they_die_or_leave(house: CareHouse) -> None:
    """Of five, one died on its 10th day and one was sold on its 20th: 0.8 live to 30 days."""
    house.do(end_animal, tag=PUP, how="died", on=ago(50), today=TODAY)
    house.do(end_animal, tag="25-01-2", how="sold", on=ago(40), why="sold", today=TODAY)
    (line,) = house.ask(survival_by, today=TODAY)
    at = {one.days: one for one in line.at}
    assert (line.born_live, line.died) == (5, 1)
    assert at[7].share == 1
    assert at[30].share == pytest.approx(0.8)
    assert at[30].followed == 3
    assert at[30].low < 0.8 < at[30].high
    assert at[90].share is None


def test_survival_is_told_by_dam_sire_tank_and_season(house: CareHouse) -> None:
    """Born in January in N1 of Alma, by Bruno or somebody unknown."""
    sires = parse_sires(["Bruno=0.6", "unknown=0.4"])
    house.do(edit_litter, code="25-01", corrections=LitterFacts(sires=sires), today=TODAY)
    groups = {
        by: [line.group for line in house.ask(survival_by, by=by, today=TODAY)]
        for by in ("dam", "sire", "tank", "season")
    }
    assert groups == {
        "dam": ["Alma"],
        "sire": ["Bruno or somebody unknown"],
        "tank": ["N1"],
        "season": ["Dec-Feb"],
    }


def test_the_dead_born_are_counted_beside_the_living(house: CareHouse) -> None:
    """A litter with two dead young adds its live ones to the curve and its dead to the count."""
    later = TODAY + timedelta(days=200)
    house.do(
        record_litter,
        dam="Alma",
        sires=parse_sires(["Bruno"]),
        born=later,
        pups=parse_pups("1F"),
        dead=2,
        tank="N1",
        anyway=True,
        today=later,
    )
    (line,) = house.ask(survival_by, by="dam", today=later)
    assert (line.litters, line.born_live, line.born_dead) == (2, 6, 2)


def test_a_book_without_litters_has_no_survival(book: Book) -> None:
    """Nothing to follow is said in a sentence."""
    with book.reading() as session, pytest.raises(NothingToSurvive):
        survival_by(session, today=TODAY)
