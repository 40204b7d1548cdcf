"""`colony animal end` names the animal: asked on a terminal, told in a script."""

import sys
from io import StringIO
from pathlib import Path

import pytest

from colony.commands.cli.failures import run
from colony.commands.cli.read import today
from colony.store.book import open_book
from colony.store.journal.entries import latest

NAMED = f"Alma, female leopoldi, in A1: died on {today()}."
END = ["animal", "end", "alma", "died"]


class Answers(StringIO):
    """A terminal at which somebody answers."""

    def isatty(self) -> bool:
        """It is one."""
        return True


class House:
    """One animal in a tank, and a terminal if there are answers."""

    def __init__(self, path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
        self.path, self._monkeypatch = path, monkeypatch
        monkeypatch.setenv("COLONY_BOOK", str(path))
        for words in (
            "tank system S1 --volume 2000L",
            "tank add A1 --system S1 --role breeding --length 240cm --width 120cm",
            "animal add Alma --species leopoldi --sex F --tank A1",
        ):
            assert run(words.split()) == 0

    def end(self, *more: str, answers: str | None = None) -> int:
        """Write Alma's end; with answers, at a terminal."""
        if answers is not None:
            self._monkeypatch.setattr(sys, "stdin", Answers(answers))
        return run([*END, *more])

    def acts(self) -> int:
        """How many acts the book holds."""
        book = open_book(str(self.path))
        try:
            with book.reading() as session:
                return latest(session).number
        finally:
            book.close()


@pytest.fixture
def house(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> House:
    """The house, and nothing said yet."""
    made = House(tmp_path / "typed.colony", monkeypatch)
    capsys.readouterr()
    return made


def test_a_script_is_told_who_ended(house: House, capsys: pytest.CaptureFixture[str]) -> None:
    """Without a terminal the end is written at once, and the line names the animal in full."""
    assert house.end() == 0
    assert capsys.readouterr().out == f"{NAMED}\n"


@pytest.mark.parametrize(
    ("answers", "code", "written"), [("y\n", 0, 1), ("n\n", 130, 0), ("", 130, 0)]
)
def test_a_terminal_is_asked(
    house: House, answers: str, code: int, written: int, capsys: pytest.CaptureFixture[str]
) -> None:
    """The animal is named in the question; only yes writes."""
    before = house.acts()
    assert house.end(answers=answers) == code
    assert f"{NAMED} Write it?" in capsys.readouterr().err
    assert house.acts() == before + written


def test_yes_is_not_asked(house: House, capsys: pytest.CaptureFixture[str]) -> None:
    """--yes writes at a terminal without a question."""
    assert house.end("--yes", answers="") == 0
    said = capsys.readouterr()
    assert said.out == f"{NAMED}\n"
    assert "Write it?" not in said.err


def test_what_cannot_be_written_is_refused_before_it_is_asked(
    house: House, capsys: pytest.CaptureFixture[str]
) -> None:
    """An animal that ended already is told at once, without a question."""
    assert house.end() == 0
    before = house.acts()
    capsys.readouterr()
    assert house.end(answers="y\n") == 1
    said = capsys.readouterr().err
    assert f"died on {today()} already" in said
    assert "Write it?" not in said
    assert house.acts() == before
