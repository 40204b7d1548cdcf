"""What an undo brings back is judged as an act would be, by the commands in each database."""

from collections.abc import Callable

import pytest
from safety_house import rows_of

from colony.commands.cli.failures import run
from colony.store.book import Book
from colony.store.journal.entries import latest

Does = Callable[..., int]
Refused = Callable[..., str]


@pytest.fixture
def does(book: Book, monkeypatch: pytest.MonkeyPatch) -> Does:
    """Run a command on the book that has to be done; the number of its act."""
    monkeypatch.setenv("COLONY_BOOK", book.location)

    def do(*words: str) -> int:
        assert run(list(words)) == 0, words
        with book.reading() as session:
            return latest(session).number

    return do


@pytest.fixture
def refused(book: Book, capsys: pytest.CaptureFixture[str]) -> Refused:
    """Undo an act, which is refused in one sentence that names a later act; nothing is written."""

    def undo(number: int, against: int) -> str:
        before = rows_of(book)
        capsys.readouterr()
        assert run(["book", "undo", "--act", str(number)]) == 1
        told = capsys.readouterr()
        assert told.out == ""
        assert told.err.count("\n") == 1
        assert "nothing was written" in told.err
        assert f"undo that one first (colony book undo --act {against})." in told.err
        assert "constraint" not in told.err.lower()
        assert rows_of(book) == before
        return told.err

    return undo


def test_a_parent_that_comes_back_makes_no_loop(does: Does, refused: Refused) -> None:
    """Of three who would descend from each other, the act that closes the loop is named."""
    for tag in ("Alma", "Bela", "Cora"):
        does("animal", "add", tag, "--sex", "F")
    does("animal", "edit", "Cora", "--dam", "Alma")
    does("animal", "edit", "Alma", "--dam", "Bela")
    gone = does("book", "undo")
    since = does("animal", "edit", "Bela", "--dam", "Cora")
    assert "own ancestor" in refused(gone, against=since)
    does("animal", "list")
    does("book", "undo", "--act", str(since))
    does("book", "undo", "--act", str(gone))


def test_a_dam_that_was_found_to_be_a_male_does_not_come_back(does: Does, refused: Refused) -> None:
    """Her pup lost her by an undo, her sex was mended; she is no dam again."""
    does("animal", "add", "Alma", "--sex", "F")
    does("animal", "add", "Bela")
    does("animal", "edit", "Bela", "--dam", "Alma")
    gone = does("book", "undo")
    since = does("animal", "edit", "Alma", "--sex", "M")
    does("animal", "edit", "Bela", "--note", "after it, and nothing against it")
    assert "Alma is male and stands as dam of Bela" in refused(gone, against=since)


def test_a_parent_that_is_younger_by_now_does_not_come_back(does: Does, refused: Refused) -> None:
    """A birth was mended while the parent was away."""
    does("animal", "add", "Alma", "--sex", "F", "--born", "2018-01-01")
    does("animal", "add", "Bela", "--born", "2021-01-01")
    does("animal", "edit", "Bela", "--dam", "Alma")
    gone = does("book", "undo")
    since = does("animal", "edit", "Alma", "--born", "2022-01-01")
    assert "its parent Alma was born on 2022-01-01" in refused(gone, against=since)


def test_an_undo_too_is_refused_for_what_came_since(does: Does, refused: Refused) -> None:
    """Not only undos of undos: the dam that another one replaced was found to be a male since."""
    does("animal", "add", "Alma", "--sex", "F")
    does("animal", "add", "Cora", "--sex", "F")
    does("animal", "add", "Bela", "--dam", "Alma")
    replaced = does("animal", "edit", "Bela", "--dam", "Cora")
    since = does("animal", "edit", "Alma", "--sex", "M")
    assert "Alma is male and stands as dam of Bela" in refused(replaced, against=since)


def test_a_tag_that_was_given_again_does_not_come_back_twice(does: Does, refused: Refused) -> None:
    """The database holds tags apart; the refusal says so in words, with the later act."""
    added = does("animal", "add", "Zoe")
    does("animal", "add", "Yves")
    gone = does("book", "undo", "--act", str(added))
    since = does("animal", "add", "Zoe")
    refused(gone, against=since)


def test_nobody_comes_back_as_the_pup_of_who_is_gone(does: Does, refused: Refused) -> None:
    """The dam was taken out of the book while her pup did not name her."""
    added = does("animal", "add", "Alma", "--sex", "F")
    does("animal", "add", "Bela")
    does("animal", "edit", "Bela", "--dam", "Alma")
    gone = does("book", "undo")
    since = does("book", "undo", "--act", str(added))
    refused(gone, against=since)


def test_days_that_come_back_are_in_order(does: Does, refused: Refused) -> None:
    """A birth that comes back after an end that was written since is refused."""
    does("animal", "add", "Alma", "--born", "2020-01-01")
    does("animal", "edit", "Alma", "--born", "2025-01-01")
    gone = does("book", "undo")
    since = does("animal", "end", "Alma", "died", "--on", "2024-05-01")
    refused(gone, against=since)


def test_what_was_done_with_an_animal_does_not_come_back_before_its_birth(
    does: Does, refused: Refused
) -> None:
    """A width that was taken back, then a later birth."""
    does("animal", "add", "Alma", "--born", "2020-01-01")
    does("pup", "measure", "Alma", "30cm", "--on", "2020-06-01")
    gone = does("book", "undo")
    since = does("animal", "edit", "Alma", "--born", "2021-01-01")
    assert "was measured on 2020-06-01" in refused(gone, against=since)


def test_what_was_wrong_before_does_not_stand_against_an_undo(book: Book, does: Does) -> None:
    """A book with a male dam in it from elsewhere can still go back step by step."""
    does("animal", "add", "Alma", "--sex", "F")
    does("animal", "add", "Bela", "--dam", "Alma")
    does("animal", "add", "Cora", "--sex", "F")
    before = rows_of(book)
    does("animal", "edit", "Cora", "--tag", "Dora", "--sex", "U")
    with book.engine.begin() as connection:
        connection.exec_driver_sql("UPDATE animal SET sex = 'M' WHERE tag = 'Alma'")
    does("book", "undo")
    after = rows_of(book)["animal"]
    assert sum(one != other for one, other in zip(before["animal"], after, strict=True)) == 1
