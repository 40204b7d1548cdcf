"""What tanks say of conception: who is possibly due, which pairing has begun, whom a litter omits."""

import pytest
from farm import Farm

from colony.acts.book.check import check_book
from colony.acts.litters.due import DueLitter, due_litters
from colony.acts.litters.edit import edit_litter
from colony.acts.pairings.listing import list_pairings
from colony.acts.pairings.pairings import start_pairing
from colony.commands.cli.remedies import command_of
from colony.notation.fields.facts import LitterFacts
from colony.notation.shares import parse_sires


@pytest.fixture
def house(farm: Farm) -> Farm:
    """Alma and Bruno in two tanks; nobody is paired."""
    for code in ("B1", "B2"):
        farm.tank(code, size="900cm")
    farm.female("Alma")
    farm.male("Bruno")
    farm.move("Alma", tank="B1", on="400d ago")
    farm.move("Bruno", tank="B2", on="400d ago")
    return farm


def due(farm: Farm) -> dict[str, DueLitter]:
    """Who is due, by tag."""
    return {line.dam: line for line in farm.ask(due_litters, today=farm.today)}


def test_a_female_that_swam_with_a_grown_male_is_possibly_due(house: Farm) -> None:
    """Without a pairing; and no more when the days of a birth went by without one."""
    assert due(house) == {}
    house.move("Bruno", tank="B1", on="60d ago", anyway=True)
    house.move("Bruno", tank="B2", on="50d ago", anyway=True)
    (line,) = due(house).values()
    assert (line.dam, line.sires, line.state) == ("Alma", ["Bruno"], "possible")


def test_who_only_swam_with_a_male_long_ago_is_not_overdue(house: Farm) -> None:
    """Ten days with him, 230 days ago: P. leopoldi carries 180 at most."""
    house.move("Bruno", tank="B1", on="240d ago", anyway=True)
    house.move("Bruno", tank="B2", on="230d ago", anyway=True)
    assert due(house) == {}


def test_a_mating_sign_needs_no_pairing(house: Farm) -> None:
    """It is of the dam, and she is expected from it."""
    house.sign("Alma", on="40d ago", kind="copulation")
    line = due(house)["Alma"]
    assert line.state == "expected"
    assert line.basis.startswith("copulation seen")


def test_a_pairing_of_two_apart_is_planned_until_they_are_together(house: Farm) -> None:
    """Its days do not count before, and the book says which move begins it."""
    begun = house.do(
        start_pairing, dam="Alma", sires=["Bruno"], on=house.day("90d ago"), today=house.today
    )
    assert begun.planned
    assert [command_of(way) for way in begun.warnings[-1].remedies] == ["colony tank move Bruno B1"]
    (line,) = house.ask(list_pairings, today=house.today)
    assert line.state == "planned"
    assert due(house) == {}
    (odd,) = [f for f in house.ask(check_book, today=house.today) if f.check == "pairing"]
    assert "is to be paired since 2025-12-09, and not begun" in odd.problem
    house.move("Bruno", tank="B1", on="20d ago", anyway=True)
    (line,) = house.ask(list_pairings, today=house.today)
    assert line.state == "running"
    assert due(house)["Alma"].basis.startswith("kept with a male, conceived 2026-02-17")


def test_a_litter_that_omits_a_male_is_named_with_the_command_that_mends_it(house: Farm) -> None:
    """Caro was there all the time: `book check` says so, and its command settles it."""
    house.male("Caro")
    house.move("Bruno", "Caro", tank="B1", on="300d ago", anyway=True)
    code = house.litter("Alma", sires="Bruno").litter
    (odd,) = [f for f in house.ask(check_book, today=house.today) if f.check == "sires"]
    assert (odd.where, odd.level) == (code, "odd")
    assert odd.problem.startswith("Caro was in B1 with her")
    (way,) = odd.remedies
    sires = parse_sires([str(value) for _, value in way.facts])
    mended = house.do(
        edit_litter, code=code, corrections=LitterFacts(sires=sires), today=house.today
    )
    assert mended.warnings == ()
    assert not [f for f in house.ask(check_book, today=house.today) if f.check == "sires"]


def test_a_certainty_that_is_kept_is_listed_and_not_counted(house: Farm) -> None:
    """Written anyway, with the reason, it is no fault of the book."""
    house.male("Caro")
    house.move("Bruno", "Caro", tank="B1", on="300d ago", anyway=True)
    house.litter("Alma", sires="Bruno", anyway=True, why="Caro was behind a divider")
    (kept,) = [f for f in house.ask(check_book, today=house.today) if f.check == "sires"]
    assert (kept.level, kept.accepted) == ("accepted", "Caro was behind a divider")


def test_a_male_that_was_a_pup_in_her_tank_is_no_sire(house: Farm) -> None:
    """Born a year ago, he was no danger to anybody."""
    house.male("Kit", born="2025-03")
    house.move("Bruno", "Kit", tank="B1", on="300d ago", anyway=True)
    assert house.litter("Alma").sire_shares == ("Bruno",)
