"""Pairings: who is with whom, what was seen, and who is due."""

from datetime import timedelta

import pytest
from farm import TODAY, Farm

from colony.acts.animals.page import show_animal
from colony.acts.litters.due import due_litters
from colony.acts.pairings.listing import list_pairings
from colony.acts.pairings.pairings import end_pairing, note_sign, start_pairing
from colony.refusals.animals import NotHere, ParentNotOlder, WrongSexForParent
from colony.refusals.pairings import PairedAlready


@pytest.fixture
def pair(farm: Farm) -> Farm:
    """Alma with Bruno and Caro since 100 days."""
    farm.tank("B1")
    farm.female("Alma", tank="B1")
    farm.male("Bruno")
    farm.male("Caro")
    farm.pair("Alma", "Bruno", "Caro", "bruno", on="100d ago", tank="B1")
    return farm


def test_a_pairing_names_each_male_once_and_its_tank(pair: Farm) -> None:
    """Typed twice in another case is once."""
    (line,) = pair.ask(list_pairings, today=TODAY)
    assert (line.dam, line.sires, line.tank, line.ended) == ("Alma", ["Bruno", "Caro"], "B1", None)


def test_a_pairing_ends_and_another_begins(pair: Farm) -> None:
    """The list shows those that run; --all those that were."""
    with pytest.raises(PairedAlready):
        pair.pair("Alma", "Caro")
    pair.do(end_pairing, dam="Alma", on=pair.day("10d ago"), today=TODAY)
    assert pair.ask(list_pairings, today=TODAY) == []
    pair.pair("Alma", "Caro", on="5d ago")
    assert [one.sires for one in pair.ask(list_pairings, all_=True, today=TODAY)] == [
        ["Caro"],
        ["Bruno", "Caro"],
    ]


def test_who_cannot_be_a_parent_is_in_no_pairing(pair: Farm) -> None:
    """Sex, age, and being here."""
    pair.female("Bella")
    pair.female("Cleo", born="2026-03-01")
    pair.male("Gone")
    pair.end("Gone", "sold")
    with pytest.raises(WrongSexForParent):
        pair.pair("Bruno", "Caro")
    with pytest.raises(WrongSexForParent):
        pair.pair("Bella", "Alma")
    with pytest.raises(ParentNotOlder):
        pair.pair("Cleo", "Caro")
    with pytest.raises(NotHere, match="was sold"):
        pair.pair("Bella", "Gone")


def test_a_sign_belongs_to_the_pairing_of_its_day(pair: Farm) -> None:
    """Seen before the pairing began it is of the dam alone."""
    pair.do(
        note_sign, dam="Alma", kind="copulation", on=pair.day("99d ago"), sire="caro", today=TODAY
    )
    assert pair.ask(list_pairings, today=TODAY)[0].signs == ["2025-11-30 copulation"]
    pair.sign("Alma", on="120d ago")
    assert pair.ask(list_pairings, today=TODAY)[0].signs == ["2025-11-30 copulation"]
    alone = "SELECT seen_on, pairing_id FROM mating_sign WHERE dam_id IS NOT NULL"
    assert pair.rows(alone) == [("2025-11-09", None)]


def test_who_is_due_is_told_by_what_was_seen(pair: Farm) -> None:
    """Kept with a male: possible; bites: expected; found gravid: confirmed; a false alarm: not."""
    states = []
    for seen in ("", "sign", "pregnant"):
        if seen == "sign":
            pair.sign("Alma", on="90d ago")
        elif seen:
            pair.found("Alma", seen, on="20d ago")
        states += [one.state for one in pair.ask(due_litters, today=TODAY)]
    assert states == ["possible", "expected", "confirmed"]
    pair.do(end_pairing, dam="Alma", on=pair.day("20d ago"), today=TODAY)
    pair.found("Alma", "false alarm", on="10d ago")
    assert pair.ask(due_litters, today=TODAY) == []


def test_nothing_seen_is_never_not_pregnant(pair: Farm) -> None:
    """A ray may show nothing: the window stays as it was."""
    pair.sign("Alma", on="90d ago")
    before = pair.ask(due_litters, today=TODAY)
    pair.found("Alma", "nothing seen", on="5d ago")
    pair.found("Alma", "unsure", on="4d ago")
    assert pair.ask(due_litters, today=TODAY) == before


def test_a_due_litter_says_where_she_is_and_by_when_its_nursery_is_needed(pair: Farm) -> None:
    """A new filter takes six weeks to mature (common practice, no source)."""
    pair.sign("Alma", on="90d ago")
    (due,) = pair.ask(due_litters, today=TODAY)
    assert due.earliest <= due.likely <= due.latest
    assert due.earliest >= TODAY
    assert due.nursery <= due.earliest - timedelta(weeks=6)
    assert (due.dam, due.sires, due.tank) == ("Alma", ["Bruno", "Caro"], "B1")


def test_a_dam_that_left_is_due_no_more(pair: Farm) -> None:
    """Whoever is gone bears elsewhere."""
    pair.sign("Alma", on="90d ago")
    pair.end("Alma", "sold")
    assert pair.ask(due_litters, today=TODAY) == []


def test_what_was_done_anyway_stands_on_the_page_of_both(pair: Farm) -> None:
    """The reason is kept where the next owner's questions are answered."""
    pair.male("Enzo", species="motoro")
    pair.female("Zara")
    pair.do(
        start_pairing,
        dam="Zara",
        sires=["Enzo"],
        on=TODAY,
        anyway=True,
        why="a cross that was asked for",
        today=TODAY,
    )
    for tag in ("Zara", "Enzo"):
        (done,) = pair.ask(show_animal, tag=tag, today=TODAY).done_anyway
        assert (done["with"], done["why"]) == (["Zara", "Enzo"], "a cross that was asked for")
        assert done["act"] == "pair"
