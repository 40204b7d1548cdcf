"""Commands that read: their JSON contract, their tables, and what they load."""

import json
import re
from collections.abc import Iterator
from datetime import date
from pathlib import Path
from typing import Any

import pytest
from clock import stop_clock
from farm import TODAY, Farm
from telling_farm import READING, telling_farm, words_of

from colony.commands.cli.failures import run

KEYS = {
    "": ["today", "due", "ready", "unmeasured", "overfull", "isolated"],
    "animal list": [
        *["tag", "sex", "species", "born", "age_days", "dam", "sires", "status", "tank"],
        *["disc_width_mm", "inbreeding"],
    ],
    "pairing pick": ["partners", "left_out"],
    "litter due": ["dam", "sires", "earliest", "likely", "latest", "nursery"],
    "pup ready": [
        *["tag", "age_days", "disc_width_mm", "ready", "gates", "expected_ready"],
        *["ready_low", "ready_high"],
    ],
    "pedigree inbreeding": ["tag", "inbreeding", "low", "high", "completeness"],
    "pedigree kinship": ["kinship"],
}
"""Keys that scripts rely on; a command may say more."""

SNAKE = re.compile(r"[a-z][a-z0-9_]*")


@pytest.fixture(scope="module", autouse=True)
def telling(lasting_location: str) -> Iterator[Farm]:
    """The farm that has something to tell, as the book that commands open."""
    farm = telling_farm(lasting_location)
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("COLONY_BOOK", farm.location)
        stop_clock(patch, TODAY)
        yield farm
    farm.book.close()


def answer(capsys: pytest.CaptureFixture[str], *words: str) -> Any:  # noqa: ANN401 - a JSON document
    """The one JSON document that a command answers with."""
    assert run([*words, "--json"]) in {0, 1}
    out, _ = capsys.readouterr()
    assert out.count("\n") == 1
    return json.loads(out)


def _first(document: Any) -> Any:  # noqa: ANN401 - a JSON document
    return next(iter(document), None) if isinstance(document, list) else document


def _every_key(document: Any) -> Iterator[str]:  # noqa: ANN401 - a JSON document
    if isinstance(document, dict):
        yield from document
        for value in document.values():
            yield from _every_key(value)
    elif isinstance(document, list):
        for value in document:
            yield from _every_key(value)


@pytest.mark.parametrize("command", READING)
def test_each_reading_command_answers_in_one_json_document(
    command: str, capsys: pytest.CaptureFixture[str]
) -> None:
    """One line, snake_case keys, and at least the keys of the contract."""
    document = answer(capsys, *words_of(command))
    assert document or command == "book check", "the farm has something to tell"
    assert set(KEYS.get(command, ())) <= set(_first(document) or ())
    assert all(SNAKE.fullmatch(key) for key in _every_key(document))


def test_json_has_iso_days_and_whole_millimetres(
    capsys: pytest.CaptureFixture[str],
) -> None:
    """A script needs no unit setting and no date format."""
    pups = {one["tag"]: one for one in answer(capsys, "pup", "ready", "--all")}
    pup = pups["25-01-1"]
    assert (pup["disc_width_mm"], pup["ready"], pup["age_days"]) == (150, True, 80)
    assert type(pup["disc_width_mm"]) is int
    assert date.fromisoformat(pup["expected_ready"]) == TODAY
    assert pups["25-01-2"]["gates"]["width"] is False
    due = {one["dam"]: one for one in answer(capsys, "litter", "due")}["Bella"]
    assert all(date.fromisoformat(due[day]) for day in ("earliest", "likely", "latest", "nursery"))
    animals = {one["tag"]: one for one in answer(capsys, "animal", "list")}
    assert animals["25-01-1"]["sires"] == ["Bruno=0.7", "Caro=0.3"]
    assert animals["Alma"]["disc_width_mm"] == 480


@pytest.mark.parametrize("columns", [200, 80, 60])
@pytest.mark.parametrize("command", READING)
def test_a_table_loses_nothing_in_a_narrow_terminal(
    command: str,
    columns: int,
    capsys: pytest.CaptureFixture[str],
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """80 columns suffice: no line is longer, and every word of the wide table is in the narrow one."""
    monkeypatch.setenv("COLUMNS", "1000")
    run(words_of(command))
    wide, _ = capsys.readouterr()
    monkeypatch.setenv("COLUMNS", str(columns))
    run(words_of(command))
    narrow, _ = capsys.readouterr()
    if columns >= 80 and command not in {"book check", "book history"}:
        tables = [line for line in narrow.splitlines() if "  " in line or set(line) == {"─"}]
        assert max(map(len, tables), default=0) <= columns
    folded = re.sub(r"[\s─]", "", narrow)
    lost = [word for word in set(wide.split()) if set(word) != {"─"} and word not in folded]
    assert [word for word in lost if len(word) <= 12] == []


@pytest.mark.parametrize("command", READING)
def test_nothing_is_coloured_and_nothing_stays_open(
    command: str, capsys: pytest.CaptureFixture[str]
) -> None:
    """No escape code reaches a pipe, and the same words give the same answer."""
    answers = []
    for _ in range(2):
        run(words_of(command))
        answers.append(capsys.readouterr())
    assert answers[0] == answers[1]
    assert "\x1b" not in answers[0].out + answers[0].err


@pytest.mark.parametrize("command", READING)
def test_the_book_may_be_named_before_and_after_the_subject(
    telling: Farm, command: str, capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    """Both ways say the same, and a book that is not there is refused in both."""
    nowhere = str(tmp_path / "nowhere.colony")
    ways = [["--book", nowhere, *words_of(command)]]
    if command:
        ways.append([*words_of(command), "--book", nowhere])
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("COLONY_BOOK", telling.location)
        for way in ways:
            assert run(way) == 1
            assert "There is no book" in capsys.readouterr().err
            patch.setenv("COLONY_BOOK", telling.location)


def test_a_check_that_finds_something_wrong_leaves_with_1(
    telling: Farm, capsys: pytest.CaptureFixture[str]
) -> None:
    """So that a script can watch the book."""
    assert run(["book", "check"]) == 0
    telling.write("UPDATE possible_sire SET share = 0.9 WHERE sire_id = 2")
    assert run(["book", "check", "--json"]) == 1
    telling.write("UPDATE possible_sire SET share = 0.7 WHERE sire_id = 2")
    assert "sum to 1.2" in capsys.readouterr().out


def test_a_book_that_cannot_be_computed_is_refused_in_words(
    telling: Farm, capsys: pytest.CaptureFixture[str]
) -> None:
    """Shares that sum to 1.2, made past the program: which pup, and what mends it."""
    telling.write("UPDATE possible_sire SET share = 0.9 WHERE sire_id = 2")
    codes = {command: run(words_of(command)) for command in ("animal list", "pairing pick")}
    telling.write("UPDATE possible_sire SET share = 0.7 WHERE sire_id = 2")
    assert set(codes.values()) == {1}
    assert "possible sires of 25-01-1 sum to 1.2" in capsys.readouterr().err
