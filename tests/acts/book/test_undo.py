"""Going back is safe: acts are reversed in order, and nothing that stands on them is lost."""

from datetime import date

import pytest
from safety_house import TODAY, furnished, rows_of

from colony.acts.animals.animals import bring_back, end_animal
from colony.acts.book.history import HistoryFilter, list_history
from colony.acts.book.undo import undo_act, undo_last
from colony.acts.litters.edit import edit_litter
from colony.notation.fields.facts import LitterFacts
from colony.notation.shares import parse_sires
from colony.refusals.history import (
    CannotBeUndone,
    LaterActDepends,
    NoSuchAct,
    NothingToUndo,
    RowIsOtherwise,
)
from colony.store.book import Book
from colony.store.journal.entries import latest


def last_number(book: Book) -> int:
    """The number of the newest act."""
    with book.reading() as session:
        return latest(session).number


def test_an_undone_litter_leaves_every_row_as_it_was_before(book: Book) -> None:
    """Undoing a birth takes the litter, its sires, its pups and their places away, and no more."""
    house = furnished(book)
    house.pair("Alma", "Bruno", "Caro")
    before = rows_of(book)
    house.litter("Alma", "2F3M")
    assert rows_of(book) != before
    house.do("book undo", undo_last)
    assert rows_of(book) == before


def test_undo_twice_goes_two_acts_back_not_there_and_back(book: Book) -> None:
    """An undo is passed over by the next one, so that a person can go back step by step."""
    house = furnished(book)
    before = rows_of(book)
    house.edit("Alma", note="one")
    house.edit("Alma", note="two")
    house.do("book undo", undo_last)
    house.do("book undo", undo_last)
    assert rows_of(book) == before


def test_several_acts_are_undone_as_one_act_and_brought_back_as_one(book: Book) -> None:
    """`undo N` is one act of the journal; undoing it by its number brings all of it back."""
    house = furnished(book)
    before = rows_of(book)
    house.move("Alma", "B2")
    house.measure("Alma", 400)
    house.edit("Alma", tag="Alva", held_back=True)
    after = rows_of(book)
    undone = house.do("book undo", undo_last, count=3)
    assert [one.act for one in undone.undone] == ["animal edit", "pup measure", "tank move"]
    assert rows_of(book) == before
    house.do("book undo", undo_act, number=last_number(book))
    assert rows_of(book) == after


def test_rows_that_an_act_replaced_come_back_with_their_keys(book: Book) -> None:
    """Mending sires deletes rows and writes new ones, perhaps under the same key; undo knows."""
    house = furnished(book)
    house.pair("Alma", "Bruno", "Caro")
    litter = house.litter("Alma", "2U").litter
    before = rows_of(book)
    corrections = LitterFacts(sires=parse_sires(["Bruno=0.9", "Caro=0.1"]))
    house.do("litter edit", edit_litter, code=litter, corrections=corrections, today=TODAY)
    house.do("book undo", undo_last)
    assert rows_of(book) == before


def test_an_act_that_a_later_one_builds_on_is_refused_by_name(book: Book) -> None:
    """An animal that was measured since cannot be taken out from under its measurement."""
    house = furnished(book)
    house.animal("Dora", "F")
    added = last_number(book)
    house.measure("Dora", 300)
    before = rows_of(book)
    with pytest.raises(LaterActDepends, match=rf"act {added + 1} \(Dora measured"):
        house.do("book undo", undo_act, number=added)
    assert rows_of(book) == before
    house.do("book undo", undo_last)
    house.do("book undo", undo_act, number=added)
    with book.reading() as session:
        assert list_history(session, wanted=HistoryFilter(animal="dora"))[0].act == "book undo"


def test_a_fact_that_a_later_act_was_judged_by_is_not_undone_alone(book: Book) -> None:
    """A sale taken back, then a measurement: the animal cannot be made sold again under it."""
    house = furnished(book)
    house.do("animal end", end_animal, tag="Caro", how="sold", on=TODAY, today=TODAY)
    house.do("animal edit", bring_back, tag="Caro")
    back = last_number(book)
    house.measure("Caro", 350)
    with pytest.raises(LaterActDepends):
        house.do("book undo", undo_act, number=back)


def test_an_act_further_back_is_undone_when_nothing_builds_on_it(book: Book) -> None:
    """Only the note of act N goes; what was written since stays."""
    house = furnished(book)
    house.edit("Alma", note="limps")
    noted = last_number(book)
    house.measure("Alma", 400)
    house.edit("Alma", line="north")
    house.do("book undo", undo_act, number=noted)
    (alma,) = [row for row in rows_of(book)["animal"] if row[1] == "Alma"]
    assert "limps" not in alma
    assert "north" in alma


def test_what_was_changed_behind_the_journal_is_not_overwritten(book: Book) -> None:
    """A row that is not as the act left it stays, and the undo is refused."""
    house = furnished(book)
    house.edit("Alma", note="one")
    with book.engine.begin() as connection:
        connection.exec_driver_sql("UPDATE animal SET note = 'by hand' WHERE tag = 'Alma'")
    with pytest.raises(RowIsOtherwise):
        house.do("book undo", undo_last)


def test_what_cannot_be_undone_says_why(book: Book) -> None:
    """The beginning stays, a number that is not there is wrong use, and twice is refused."""
    house = furnished(book)
    house.edit("Alma", note="one")
    noted = last_number(book)
    house.do("book undo", undo_act, number=noted)
    with pytest.raises(CannotBeUndone, match="undid it already"):
        house.do("book undo", undo_act, number=noted)
    with pytest.raises(CannotBeUndone, match="beginning"):
        house.do("book undo", undo_act, number=1)
    with pytest.raises(NoSuchAct):
        house.do("book undo", undo_act, number=999)
    with pytest.raises(NothingToUndo, match="only 6 acts"):
        house.do("book undo", undo_last, count=50)


def test_history_of_an_animal_holds_what_was_done_with_it_and_no_more(book: Book) -> None:
    """A pairing, a placement and a litter are of the dam; another animal's measurement is not."""
    house = furnished(book)
    house.pair("Alma", "Bruno")
    house.litter("Alma", "1F1M")
    house.measure("Caro", 380)
    house.move("Alma", "B2")
    with book.reading() as session:
        of_alma = list_history(session, wanted=HistoryFilter(animal="alma"))
        of_b2 = list_history(session, wanted=HistoryFilter(tank="b2"))
        births = list_history(session, wanted=HistoryFilter(act="litter"))
        long_ago = list_history(session, wanted=HistoryFilter(until=date(2020, 1, 1)))
    assert [one.act for one in of_alma] == [
        "tank move",
        "litter record",
        "pairing start",
        "animal add",
    ]
    assert [one.act for one in of_b2] == ["tank move", "tank add"]
    assert [birth.act for birth in births] == ["litter record"]
    assert long_ago == []
