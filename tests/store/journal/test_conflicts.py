"""Two people, one animal: the second is told what changed, and overwrites nothing."""

import pytest
from safety_house import TODAY, furnished, rows_of

from colony.acts.animals.animals import edit_animal
from colony.acts.pups.measure import measure
from colony.acts.tanks.tanks import move
from colony.notation.fields.facts import AnimalFacts
from colony.refusals.history import BookWasReplaced, ChangedMeanwhile
from colony.store.book import Book
from colony.store.journal.entries import Mark, latest


def seen(book: Book) -> Mark:
    """Where the book stands for somebody who looks now."""
    with book.reading() as session:
        return latest(session)


def test_a_fact_that_changed_since_it_was_seen_is_not_overwritten(book: Book) -> None:
    """The refusal says who changed it, and from what to what; the first change stands."""
    house = furnished(book)
    mark = seen(book)
    house.edit("Alma", line="north", note="first")
    before = rows_of(book)
    with (
        pytest.raises(ChangedMeanwhile, match="line none -> north"),
        book.act("animal edit", seen=mark) as session,
    ):
        edit_animal(session, tag="Alma", facts=AnimalFacts(line="south"), today=TODAY)
    assert rows_of(book) == before


def test_two_facts_of_one_animal_can_be_mended_by_two_people(book: Book) -> None:
    """Different columns do not meet, so neither change is lost and nobody is bothered."""
    house = furnished(book)
    mark = seen(book)
    house.edit("Alma", line="north")
    with book.act("animal edit", seen=mark) as session:
        edit_animal(session, tag="Alma", facts=AnimalFacts(note="calm"), today=TODAY)
    (alma,) = [row for row in rows_of(book)["animal"] if row[1] == "Alma"]
    assert {"north", "calm"} <= set(alma)


def test_a_move_of_an_animal_that_was_moved_meanwhile_is_refused(book: Book) -> None:
    """Where it is now was not what the second person saw."""
    house = furnished(book)
    mark = seen(book)
    house.move("Alma", "B2")
    with pytest.raises(ChangedMeanwhile), book.act("tank move", seen=mark) as session:
        move(session, tags=["Alma"], tank="B1", on=TODAY, anyway=True, today=TODAY)


def test_a_second_width_of_the_day_does_not_replace_an_unseen_first(book: Book) -> None:
    """A measurement of the same day mends the first only for somebody who could see it."""
    house = furnished(book)
    mark = seen(book)
    house.measure("Alma", 400)
    with pytest.raises(ChangedMeanwhile), book.act("pup measure", seen=mark) as session:
        measure(session, tag="Alma", width_mm=500, on=TODAY, today=TODAY)


def test_a_book_that_was_replaced_meanwhile_is_not_written_in(book: Book) -> None:
    """A mark of another history is known for one."""
    furnished(book)
    elsewhere = Mark(3, "1999-01-01T00:00:00+00:00")
    with pytest.raises(BookWasReplaced), book.act("animal edit", seen=elsewhere) as session:
        edit_animal(session, tag="Alma", facts=AnimalFacts(note="x"), today=TODAY)


def test_the_mark_moves_with_every_act_and_only_then(book: Book) -> None:
    """A screen that polls the mark knows when to read again."""
    house = furnished(book)
    first = seen(book)
    assert seen(book) == first
    house.edit("Alma", note="x")
    assert seen(book) != first
