"""Feeding in the book: foods and batches, what a tank took, and what it says of each animal."""

from datetime import timedelta

import pytest
from care_house import TODAY, CareHouse, ago, care_house

from colony.acts.animals.animals import add_animal
from colony.acts.animals.page import show_animal
from colony.acts.care.feeding import Fed, Seen, feed_tank, list_feedings
from colony.acts.care.foods import add_batch, finish_batch, list_foods, set_food
from colony.acts.care.rhythms import begin_round
from colony.acts.care.work import todays_round
from colony.acts.health.look_over import look_over
from colony.acts.health.watch import watch_list
from colony.acts.pups.foods_taken import list_acceptance
from colony.acts.pups.measure import measure
from colony.acts.pups.ready import ready_pups
from colony.notation.fields.facts import AnimalFacts
from colony.refusals.care import (
    BatchNotThereYet,
    BatchTaken,
    NobodyToFeed,
    NoSuchBatch,
    NoSuchFood,
    NotInThisTank,
)
from colony.store.book import Book

PUPS = tuple(f"25-01-{n}" for n in range(1, 6))


@pytest.fixture
def house(book: Book) -> CareHouse:
    """The house with worms and prawn, and two batches of worms of which one has expired."""
    built = care_house(book)
    built.do(set_food, name="Worms", protein_percent=10)
    built.do(set_food, name="Prawn")
    for code, expires in (("old", ago(1)), ("new", TODAY + timedelta(days=30))):
        built.do(add_batch, food="worms", code=code, received=ago(20), expires=expires, today=TODAY)
    return built


def give(
    house: CareHouse, tank: str, food: str = "worms", days_ago: int = 0, **facts: object
) -> Fed:
    """Feed a tank on a day."""
    fed: Fed = house.do(
        feed_tank,
        tank=tank,
        food=food,
        on=ago(days_ago),
        today=TODAY,
        **facts,  # type: ignore[arg-type]
    )
    return fed


def acceptance(house: CareHouse, tag: str) -> list[bool]:
    """Whether an animal took each food that it was offered."""
    return [feeding["took"] for feeding in house.ask(show_animal, tag=tag, today=TODAY).feedings]


def test_a_tank_that_took_all_says_nothing_of_one_pup_in_it(house: CareHouse) -> None:
    """Who ate is not known in a group: only those that were named are written down."""
    fed = give(house, "N1", seen=Seen(took=[PUPS[0]], refused=[PUPS[1]]))
    assert (fed.took, fed.refused) == ((PUPS[0],), (PUPS[1],))
    assert [acceptance(house, pup) for pup in PUPS] == [[True], [False], [], [], []]


def test_what_is_certain_is_written_for_each_animal(house: CareHouse) -> None:
    """Alone in the tank, each seen to eat, or nobody took anything: then it is certain."""
    assert give(house, "I1").took == ("Nova",)
    assert give(house, "N1", seen=Seen(refused=[PUPS[4]], everyone_took=True)).took == PUPS[:4]
    assert give(house, "A1", taken="none").refused == ("Alma", "Bruno")
    assert give(house, "I1", food="prawn", taken="some").took == ()


def test_feeding_a_tank_opens_the_gate_of_its_pups(house: CareHouse) -> None:
    """Two foods taken by everybody for fifteen days open the feeding gate of readiness."""
    for food in ("worms", "prawn"):
        give(house, "N1", food=food, days_ago=15, seen=Seen(everyone_took=True))
    gates = [pup.gates["feeding"] for pup in house.ask(ready_pups, everybody=True, today=TODAY)]
    assert gates == [True] * 5


def test_the_batch_that_expires_first_and_is_good_is_taken(house: CareHouse) -> None:
    """Not the expired one, unless it is named or there is no other: then it is warned of."""
    assert give(house, "I1").batch == "new"
    named = give(house, "I1", batch="old")
    assert "expired" in named.warnings[0]
    house.do(finish_batch, food="worms", code="new", on=TODAY, today=TODAY)
    assert give(house, "I1").batch == "old"
    (worms,) = [one for one in house.ask(list_foods, today=TODAY) if one.food == "Worms"]
    assert [(batch.batch, batch.expired) for batch in worms.batches] == [("old", True)]


def test_a_feeding_is_ticked_off_and_listed(house: CareHouse) -> None:
    """The round knows that the tank was fed, and the log what it was fed."""
    house.do(begin_round, today=TODAY)
    give(house, "A1", offered_g=30)
    lines = {(o.task, o.place): o for o in house.ask(todays_round, today=TODAY)}
    assert not lines["feeding", "A1"].is_open
    (line,) = house.ask(list_feedings, tank="A1")
    assert (line.food, line.batch, line.offered_g, line.taken) == ("Worms", "new", 30, "all")


def test_a_second_food_of_one_meal_is_one_feeding(house: CareHouse) -> None:
    """Pups are fed twice a day: two foods at once are the first time, not both."""
    house.do(begin_round, today=TODAY)
    give(house, "N1")
    give(house, "N1", food="prawn", same_meal=True)
    lines = {(o.task, o.place): o for o in house.ask(todays_round, today=TODAY)}
    assert (lines["feeding", "N1"].done, lines["feeding", "N1"].is_open) == (1, True)


def test_the_foods_of_each_pup_are_told_and_who_never_fed_comes_first(house: CareHouse) -> None:
    """First feed, foods taken since when, and a refusal that takes a food away again."""
    give(house, "N1", days_ago=9, seen=Seen(took=PUPS[:2]))
    give(house, "N1", food="prawn", days_ago=5, seen=Seen(took=[PUPS[0]]))
    give(house, "N1", days_ago=1, seen=Seen(refused=[PUPS[1]]))
    lines = house.ask(list_acceptance, today=TODAY)
    assert [line.tag for line in lines] == [*PUPS[2:], *PUPS[:2]]
    told = {line.tag: line for line in lines}
    assert told[PUPS[0]].takes == {"worms": ago(9), "prawn": ago(5)}
    assert (told[PUPS[1]].first_feed, told[PUPS[1]].takes) == (ago(9), {})
    assert (told[PUPS[0]].foods_needed, told[PUPS[0]].days_needed) == (2, 14)


def test_refusals_in_a_row_are_called_out(house: CareHouse) -> None:
    """Three days on which nothing was taken are news; a food taken ends the row."""
    for days_ago in (3, 2):
        give(house, "A1", days_ago=days_ago, taken="none")
    assert house.ask(watch_list, today=TODAY) == []
    give(house, "A1", days_ago=1, taken="none")
    called = house.ask(watch_list, today=TODAY)
    assert [(one.tag, one.since, "3 feeding days" in one.why) for one in called] == [
        ("Alma", ago(3), True),
        ("Bruno", ago(3), True),
    ]
    give(house, "A1", seen=Seen(took=["Alma"]))
    assert [one.tag for one in house.ask(watch_list, today=TODAY)] == ["Bruno"]


def test_a_width_that_stands_still_is_called_out_while_it_should_grow(house: CareHouse) -> None:
    """A pup that gained 1 mm in fifty days is named, one that gained 20 is not, nor an adult."""
    for tag, first, last in ((PUPS[0], 120, 121), (PUPS[1], 120, 140), ("Alma", 470, 470)):
        house.do(measure, tag=tag, width_mm=first, on=ago(50), today=TODAY)
        house.do(measure, tag=tag, width_mm=last, on=ago(0), today=TODAY)
    assert [one.tag for one in house.ask(watch_list, today=TODAY)] == [PUPS[0]]


def test_a_mass_that_falls_and_a_sign_are_called_out(house: CareHouse) -> None:
    """A grown animal that lost mass, and one with a sign of the last days."""
    for mass_g, days_ago in ((4000, 60), (3700, 0)):
        house.do(measure, tag="Bruno", mass_g=mass_g, on=ago(days_ago), today=TODAY)
    house.do(look_over, tag="Nova", signs=["thin"], on=ago(2), today=TODAY)
    why = {one.tag: one.why for one in house.ask(watch_list, today=TODAY)}
    assert why.keys() == {"Bruno", "Nova"}
    assert "mass -300 g" in why["Bruno"]


def test_foods_and_tanks_that_are_not_there_are_refused(house: CareHouse) -> None:
    """An unknown food or batch, an empty tank, an animal of another tank, a code used twice."""
    with pytest.raises(NoSuchFood, match="Prawn"):
        give(house, "A1", food="smelt")
    with pytest.raises(NoSuchBatch, match="new"):
        give(house, "A1", batch="other")
    with pytest.raises(NobodyToFeed):
        give(house, "A2")
    with pytest.raises(NotInThisTank):
        give(house, "A1", seen=Seen(took=["Nova"]))
    with pytest.raises(BatchTaken):
        house.do(add_batch, food="worms", code="new", received=TODAY, today=TODAY)
    with pytest.raises(BatchNotThereYet):
        house.do(finish_batch, food="worms", code="new", on=ago(30), today=TODAY)


def test_an_animal_is_no_resident_before_it_came(house: CareHouse) -> None:
    """A feeding of last week is of those who were there last week."""
    house.do(
        add_animal,
        tag="Late",
        facts=AnimalFacts(arrived=ago(2), origin="born here"),
        tank="A2",
        today=TODAY,
    )
    with pytest.raises(NobodyToFeed):
        give(house, "A2", days_ago=7)
