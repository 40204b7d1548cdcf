"""What an empty word, a bare number and a long word say of a new record."""

import json
from pathlib import Path

import pytest

from colony.commands.cli.failures import run


@pytest.fixture
def book(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A book that weighs in kg, with one female in it."""
    monkeypatch.setenv("COLONY_BOOK", str(tmp_path / "farm.colony"))
    assert run(["animal", "add", "Alma", "--species", "leopoldi", "--sex", "F"]) == 0
    assert run(["book", "settings", "mass_unit", "kg"]) == 0


@pytest.mark.usefixtures("book")
@pytest.mark.parametrize(
    "words",
    [
        ("pup", "measure", "Alma", ""),
        ("pairing", "check", "Alma", "--found", ""),
        ("pairing", "check", "Alma", "--found", "unsure", "--method", ""),
        ("pairing", "check", "Alma"),
        ("health", "look", "Alma", "--sign", ""),
        ("health", "look", "Alma", "--on", ""),
        ("animal", "hold", "Alma"),
        ("health", "vet", "Ada Stone", "--why", "thin"),
        ("pup", "feed", "Alma", "x" * 41),
    ],
)
def test_a_needed_fact_is_asked_for(words: tuple[str, ...]) -> None:
    """Left out, empty or too long it is wrong use, and nothing is written."""
    assert run(list(words)) == 2


@pytest.mark.usefixtures("book")
def test_an_empty_note_says_nothing(capsys: pytest.CaptureFixture[str]) -> None:
    """No note is kept, and the day and the sign are those that hold where nothing is said."""
    assert run(["health", "look", "Alma", "--sign", "thin", "--note", ""]) == 0
    capsys.readouterr()
    assert run(["health", "signs", "--json"]) == 0
    [line] = json.loads(capsys.readouterr().out)
    assert (line["sign"], line["note"]) == ("thin", None)


@pytest.mark.usefixtures("book")
def test_a_bare_mass_is_in_the_unit_of_the_book(capsys: pytest.CaptureFixture[str]) -> None:
    """As in the form, and as a bare width is."""
    capsys.readouterr()
    assert run(["pup", "measure", "Alma", "40cm", "4", "--json"]) == 0
    measured = json.loads(capsys.readouterr().out)
    assert measured["mass_g"] == 4000
