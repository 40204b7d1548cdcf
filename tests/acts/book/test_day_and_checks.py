"""The state of the day, the ready list, and looking the book over."""

import pytest
from farm import TODAY, Farm

from colony.acts.book.check import check_book
from colony.acts.book.day import state_of_the_day
from colony.acts.pups.ready import ready_pups


@pytest.fixture
def growing(farm: Farm) -> Farm:
    """A litter of three, nine weeks old: one wide and feeding, one narrow, one held."""
    farm.tank("N1", role="nursery")
    farm.female("Alma", tank="N1")
    farm.litter("Alma", "3F", sires="unknown", born="63d ago")
    for n, width in ((1, "16cm"), (2, "11cm"), (3, "16cm")):
        farm.measure(f"26-01-{n}", width, on="2d ago")
        for food in ("worms", "prawn"):
            farm.feed(f"26-01-{n}", food, on="30d ago")
    farm.hold("26-01-3")
    return farm


def test_the_ready_list_is_those_who_pass_every_gate(growing: Farm) -> None:
    """The others are there when everybody is asked for, with what each waits for."""
    assert [one.tag for one in growing.ask(ready_pups, today=TODAY)] == ["26-01-1"]
    waiting = {
        one.tag: one.waiting_on for one in growing.ask(ready_pups, everybody=True, today=TODAY)
    }
    assert waiting == {"26-01-1": (), "26-01-2": ("width",), "26-01-3": ("no_hold",)}


def test_the_asker_sets_age_and_width(growing: Farm) -> None:
    """8 weeks and 11 cm let two through that are not held; ten weeks none."""
    ready = growing.ask(ready_pups, min_age_days=56, min_width_mm=110, today=TODAY)
    assert [one.tag for one in ready] == ["26-01-1", "26-01-2"]
    assert growing.ask(ready_pups, min_age_days=70, today=TODAY) == []


def test_the_day_says_what_the_lists_say(growing: Farm) -> None:
    """Ready, due and overfull are the same as asked for one by one; who was long not measured."""
    growing.male("Bruno")
    growing.pair("Alma", "Bruno", on="20d ago")
    state = growing.ask(state_of_the_day, today=TODAY)
    assert list(state.ready) == growing.ask(ready_pups, today=TODAY)
    assert state.unmeasured == ()
    later = growing.ask(state_of_the_day, today=growing.day("in 6w"))
    assert {one.tag for one in later.unmeasured} == {"26-01-1", "26-01-2", "26-01-3"}


def test_a_sound_book_has_nothing_wrong(growing: Farm) -> None:
    """The checks find what was made wrong, and only that."""
    assert [one for one in growing.ask(check_book, today=TODAY) if one.wrong] == []


@pytest.mark.parametrize(
    ("sql", "check"),
    [
        ("UPDATE possible_sire SET share = 0.5", "shares"),
        ("UPDATE animal SET born = '2026-02-01' WHERE tag = 'Alma'", "parent age"),
        ("UPDATE animal SET sex = 'M' WHERE tag = 'Alma'", "pedigree"),
        ("UPDATE animal SET born = '2027-01-01' WHERE tag = '26-01-1'", "clock"),
    ],
)
def test_what_cannot_be_is_found_with_the_command_that_mends_it(
    growing: Farm, sql: str, check: str
) -> None:
    """Changed past the program: wrong, where, and what to do."""
    growing.write(sql)
    wrong = [one for one in growing.ask(check_book, today=TODAY) if one.wrong]
    assert check in {one.check for one in wrong}
    assert all(one.remedies or one.advice for one in wrong)


def test_what_is_odd_is_told_apart_from_what_is_wrong(growing: Farm) -> None:
    """An animal in no tank, a pup that shrank."""
    growing.male("Bruno")
    growing.measure("26-01-1", "13cm")
    odd = {(one.check, one.where) for one in growing.ask(check_book, today=TODAY) if not one.wrong}
    assert {("place", "Bruno"), ("width", "26-01-1")} <= odd
