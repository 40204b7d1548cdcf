"""What was written into a book past the program commands no terminal, on any screen or line."""

import shlex
import sqlite3
import unicodedata
from collections.abc import Callable
from contextlib import closing
from datetime import date
from pathlib import Path

import pytest
from clock import stop_clock
from screens_house import WIDE, text_after

from colony.commands.cli.failures import run

DAY = date(2026, 3, 2)
SIGNS = "\x1b[31mX\x07\x9b2J\r"
"""Colour, a bell, a cleared screen and a line begun anew (ECMA-48)."""

COLUMNS = {
    "animal": ("note", "name", "line", "arrived_from", "ended_why"),
    "tank": ("note",),
    "hold": ("why",),
    "look_over": ("note",),
    "litter": ("note",),
    "species": ("english_name",),
    "vet_visit": ("vet", "why"),
}
NAMES = {"animal": "tag", "tank": "code", "food": "name", "system": "name"}

COMMANDS = (
    "",
    "animal list --limit 0",
    "animal show Alma",
    "pairing list",
    "pairing pick Alma",
    "litter list",
    "litter due",
    "pup ready --all",
    "tank list",
    "tank outlook",
    "round --all",
    "food list",
    "food log --since 60d\\ ago",
    "water plan",
    "health signs --all",
    "health visits",
    "health deaths",
    "pedigree founders",
    "species list",
    "book check",
    "book history",
    "animal show Nobody",
)

KEYS: tuple[list[str], ...] = (
    [],
    ["2"],
    ["2", "enter"],
    ["3"],
    ["4"],
    ["5"],
    ["6"],
    ["6", "enter"],
    ["7"],
    ["8"],
)


@pytest.fixture
def hostile(sample_of: Callable[[date], Path], tmp_path: Path) -> Path:
    """A copy of the sample colony into which somebody wrote signs for a terminal."""
    path = tmp_path / "book.colony"
    path.write_bytes(sample_of(DAY).read_bytes())
    with closing(sqlite3.connect(path)) as raw:
        for table, columns in COLUMNS.items():
            for column in columns:
                raw.execute(f"UPDATE {table} SET {column} = ?", (SIGNS,))  # noqa: S608 - our own names
        for table, column in NAMES.items():
            raw.execute(f"UPDATE {table} SET {column} = {column} || ? WHERE id % 3 = 0", (SIGNS,))  # noqa: S608 - the same
        raw.commit()
    return path


def commanding(text: str) -> set[str]:
    """The signs in a text that a terminal would obey."""
    return {sign for sign in text if unicodedata.category(sign) == "Cc" and sign != "\n"}


def test_no_command_passes_them_on(
    hostile: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """As lists, as JSON and in refusals."""
    monkeypatch.setenv("COLONY_BOOK", str(hostile))
    stop_clock(monkeypatch, DAY)
    for command in COMMANDS:
        for words in (shlex.split(command), [*shlex.split(command), "--json"]):
            run(words)
            said = capsys.readouterr()
            assert commanding(said.out + said.err) == set(), words


@pytest.mark.parametrize("keys", KEYS)
def test_no_screen_passes_them_on(hostile: Path, keys: list[str]) -> None:
    """In lists, pages and plans."""
    assert commanding(text_after(hostile, *keys, size=WIDE)) == set()
