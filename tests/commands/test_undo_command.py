"""`colony book undo` beside another writer, and before much is taken back."""

import json
import sys
from pathlib import Path
from typing import Any

import pytest

from colony.commands.cli.failures import run
from colony.store.book import Book

FILES = Path(__file__).parents[2] / "sample_colony"
Captured = pytest.CaptureFixture[str]


@pytest.fixture(autouse=True)
def keeper(book: Book, monkeypatch: pytest.MonkeyPatch) -> pytest.MonkeyPatch:
    """The book is that of the commands, and the keeper is at them; in each database."""
    monkeypatch.setenv("COLONY_BOOK", book.location)
    monkeypatch.setenv("COLONY_WHO", "keeper")
    return monkeypatch


def history(capsys: Captured) -> list[Any]:
    """The acts, the newest first."""
    capsys.readouterr()
    assert run(["book", "history", "--json"]) == 0
    acts: list[Any] = json.loads(capsys.readouterr().out)
    return acts


def test_one_takes_back_ones_own_last_act_beside_another_writer(
    keeper: pytest.MonkeyPatch, capsys: Captured
) -> None:
    """Ada wrote last; the keeper's act goes, hers stays, and then there is none of the keeper's."""
    assert run(["animal", "add", "Alma"]) == 0
    keeper.setenv("COLONY_WHO", "Ada")
    assert run(["animal", "add", "Bela"]) == 0
    keeper.setenv("COLONY_WHO", "keeper")
    assert run(["book", "undo"]) == 0
    undo, hers, own = history(capsys)[:3]
    assert own["undone_by"] == undo["number"]
    assert hers["undone_by"] is None
    assert run(["book", "undo"]) == 1
    assert "by its number (colony book undo --act NUMBER)." in capsys.readouterr().err


def test_a_script_takes_back_anothers_act_only_with_yes(
    keeper: pytest.MonkeyPatch, capsys: Captured
) -> None:
    """Refused with 1 and one sentence, nothing written; with --yes it is done, also as JSON."""
    keeper.setenv("COLONY_WHO", "Ada")
    assert run(["animal", "add", "Bela"]) == 0
    keeper.setenv("COLONY_WHO", "keeper")
    hers = history(capsys)[0]["number"]
    assert run(["book", "undo", "--act", str(hers)]) == 1
    told = capsys.readouterr()
    assert told.out == ""
    assert told.err.count("\n") == 1
    assert "written by Ada" in told.err
    assert "repeat with --yes" in told.err
    assert history(capsys)[0]["number"] == hers
    assert run(["book", "undo", "--act", str(hers), "--yes", "--json"]) == 0
    (undone,) = json.loads(capsys.readouterr().out)["undone"]
    assert undone["number"] == hers


def test_an_import_is_shown_and_asked_about_at_a_terminal(
    keeper: pytest.MonkeyPatch, capsys: Captured
) -> None:
    """In a script it takes --yes; at a terminal the act and its rows are shown before the answer."""
    assert run(["book", "import", str(FILES)]) == 0
    imported = history(capsys)[0]["number"]
    assert run(["book", "undo"]) == 1
    assert "an import" in capsys.readouterr().err
    for stream in (sys.stdin, sys.stderr):
        keeper.setattr(stream, "isatty", lambda: True)
    keeper.setattr("typer.confirm", lambda said, **_: asked.append(said))
    asked: list[str] = []
    assert run(["book", "undo"]) == 0
    assert "an import" in asked[0]
    assert " rows" in asked[0]
    assert history(capsys)[1]["number"] == imported
