"""An end is followed everywhere, and taken back whole."""

from datetime import timedelta

import pytest
from farm import TODAY, Farm

from colony.acts.animals.animals import bring_back, end_animal
from colony.acts.animals.listing import AnimalFilter, list_animals
from colony.acts.book.check import check_book
from colony.acts.book.history import list_history
from colony.acts.care.headcount import count_heads
from colony.acts.health.deaths import list_deaths
from colony.acts.pairings.listing import list_pairings
from colony.acts.pups.measure import measure
from colony.acts.tanks.loads import list_tanks
from colony.refusals.animals import EndsBeforeLater, LastSeenUnclear


@pytest.fixture
def group(farm: Farm) -> Farm:
    """A dam with two sires in one tank, and a second dam with one of them."""
    farm.tank("N1")
    for tag in ("Alma", "Bella"):
        farm.female(tag, tank="N1")
    for tag in ("Bruno", "Caro"):
        farm.male(tag, tank="N1")
    farm.pair("Alma", "Bruno", "Caro", on="today")
    farm.pair("Bella", "Bruno", on="today")
    return farm


def running(farm: Farm) -> set[str]:
    """The dams of the pairings that run."""
    return {pairing.dam for pairing in farm.ask(list_pairings, today=farm.today)}


def test_a_pairing_ends_with_its_last_male(group: Farm) -> None:
    """One of two males leaves the other with her; with him the pairing is over."""
    group.end("Bruno", "sold")
    assert running(group) == {"Alma"}
    group.end("Caro", "died")
    assert running(group) == set()
    assert [f for f in group.ask(check_book, today=TODAY) if f.level == "wrong"] == []


def test_who_left_today_counts_in_no_list(group: Farm) -> None:
    """The herd, the tank, its headcount and those of a tank agree, whatever the day."""
    group.end("Caro", "sold")
    listed, _ = group.ask(list_animals, wanted=AnimalFilter(status="present"), today=TODAY)
    of_tank, _ = group.ask(list_animals, wanted=AnimalFilter(tank="N1", status=None), today=TODAY)
    (tank,) = group.ask(list_tanks, today=TODAY)
    counted = group.do(count_heads, tank="N1", counted=3, on=TODAY, today=TODAY)
    here = {"Alma", "Bella", "Bruno"}
    assert {animal.tag for animal in listed} == {animal.tag for animal in of_tank} == here
    assert set(tank.animals) == set(counted.in_the_book) == here
    assert counted.warnings == ()


def test_bringing_back_gives_back_the_tank(group: Farm) -> None:
    """The stay goes on as if it had never ended."""
    before = group.rows("SELECT * FROM placement ORDER BY id")
    group.end("Caro", "sold")
    group.do(bring_back, tag="Caro")
    assert group.rows("SELECT * FROM placement ORDER BY id") == before


def test_a_tank_that_was_left_before_the_end_is_not_given_back(farm: Farm) -> None:
    """Only the stay that the end ended is taken up again."""
    farm.tank("N1")
    farm.female("Alma", tank="N1", arrived="60d ago")
    farm.write("UPDATE placement SET left_on = '2026-03-01'")
    farm.end("Alma", "gone")
    farm.do(bring_back, tag="Alma")
    assert farm.rows("SELECT left_on FROM placement") == [("2026-03-01",)]


def test_an_end_before_later_events_names_them(group: Farm) -> None:
    """Each kind with its last day; from that day on the end is written."""
    group.measure("Caro", "40cm", on="2d ago")
    group.feed("Caro", "worms", on="yesterday")
    before = group.written()
    with pytest.raises(
        EndsBeforeLater, match="measured on 2026-03-07, fed on 2026-03-08 and moved"
    ):
        group.end("Caro", "died", on="5d ago")
    assert group.written() == before
    group.end("Caro", "died", on="today")


def test_one_that_died_unseen_died_between_two_days(group: Farm) -> None:
    """Both days are kept and told, and bringing it back forgets them."""
    group.female("Edda")
    seen = TODAY - timedelta(days=4)
    group.do(end_animal, tag="Edda", how="died", on=TODAY, last_seen=seen, today=TODAY)
    (death,) = group.ask(list_deaths)
    assert (death.last_seen, death.on) == (seen, TODAY)
    (told,) = group.ask(list_history, most=1)
    assert told.summary == f"Edda died between {seen} and {TODAY}"
    group.do(bring_back, tag="Edda")
    assert group.rows("SELECT last_seen FROM animal WHERE tag = 'Edda'") == [(None,)]


def test_last_seen_has_to_agree_with_the_end(group: Farm) -> None:
    """Not after it was found, not before it was last measured, and only of one that died."""
    group.female("Edda")
    tomorrow, before = TODAY + timedelta(days=1), TODAY - timedelta(days=4)
    with pytest.raises(LastSeenUnclear, match="must not come before last_seen"):
        group.do(end_animal, tag="Edda", how="died", on=TODAY, last_seen=tomorrow, today=TODAY)
    with pytest.raises(LastSeenUnclear, match="Only an animal that died"):
        group.do(end_animal, tag="Caro", how="sold", on=TODAY, last_seen=TODAY, today=TODAY)
    group.do(measure, tag="Edda", width_mm=400, on=TODAY, today=TODAY)
    with pytest.raises(EndsBeforeLater, match="measured on"):
        group.do(end_animal, tag="Edda", how="died", on=TODAY, last_seen=before, today=TODAY)
