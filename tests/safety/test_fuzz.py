"""Strangers' input ends in an answer or in one sentence: no traceback, no hang, nothing obeyed."""

import json
import os
import resource
import sqlite3
import subprocess
import sys
from contextlib import closing, suppress
from datetime import UTC, datetime
from pathlib import Path

import pytest
from fuzz_drill import SLOW, attack
from fuzz_targets import targets
from safety_house import TODAY, furnished, rows_of

from colony.acts.book.check import check_book
from colony.commands.cli.failures import run
from colony.refusals.books import UnfitForBook
from colony.refusals.history import JournalDamaged
from colony.store.backups.transfer import rebuild_book
from colony.store.book import Book, open_book
from colony.store.journal.entries import RecordedAct

GIGABYTE, MEGABYTE = 2**30, 2**20


@pytest.fixture
def colony(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> "Program":
    """The program, on a furnished book."""
    book = open_book(str(tmp_path / "farm.colony"), begin=True)
    furnished(book)
    book.close()
    return Program(book.location, capsys)


class Program:
    """Runs commands and gives back their code and what they said."""

    def __init__(self, location: str, capsys: pytest.CaptureFixture[str]) -> None:
        self.location, self._capsys = location, capsys

    def __call__(self, *words: str | Path) -> tuple[int, str, str]:
        """Run one command."""
        code = run(["--book", self.location, *map(str, words)])
        out, err = self._capsys.readouterr()
        return code, out, err


def test_hostile_cases_end_in_an_answer_or_a_refusal(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A small part of the drill, which was run with 100,000 cases; see docs/safety.md."""
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path))
    monkeypatch.setenv("COLONY_WHO", "a stranger")
    for name, target in targets(tmp_path).items():
        attack(*target, most=40 if name in SLOW else 100, number=1)


def refused(told: tuple[int, str, str]) -> str:
    """The one sentence of a refusal."""
    code, out, err = told
    assert code in (1, 2)
    assert out == ""
    assert err.count("\n") == 1
    return err


def test_a_file_of_a_gigabyte_is_refused_unread(colony: Program, tmp_path: Path) -> None:
    """It is refused by its size, without being read into memory."""
    large = tmp_path / "large.csv"
    large.touch()
    os.truncate(large, GIGABYTE)
    before = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
    assert "64 MB" in refused(colony("book", "import", large))
    assert "cannot be used" in refused(colony("book", "restore", "--yes", large))
    assert resource.getrusage(resource.RUSAGE_SELF).ru_maxrss - before < 64 * 1024


def test_a_cell_of_ten_megabytes_is_refused_with_its_line(colony: Program, tmp_path: Path) -> None:
    """The sentence says where the cell is."""
    sheet = tmp_path / "cell.csv"
    sheet.write_bytes(b"tag,note\n" + b"x" * (10 * MEGABYTE) + b",1\n")
    assert "Line 2" in refused(colony("book", "import", sheet))


def test_pipes_devices_and_folders_are_no_files(colony: Program, tmp_path: Path) -> None:
    """What has no end is not waited for."""
    os.mkfifo(tmp_path / "pipe")
    for path in (tmp_path / "pipe", Path("/dev/zero")):
        assert "no plain file" in refused(colony("book", "import", path))
        assert "There is no backup" in refused(colony("book", "restore", "--yes", path))
    folder = tmp_path / "colony"
    folder.mkdir()
    os.mkfifo(folder / "colony.toml")
    refused(colony("book", "import", folder))


def test_words_that_are_no_text_are_refused(colony: Program) -> None:
    """Bytes that are no UTF-8 reach a program as surrogates; no database can hold them."""
    for words in (("animal", "show", "\udcff"), ("book", "history", "--animal", "\udcff")):
        assert "cannot be read as text" in refused(colony(*words))
    assert "There is no act" in refused(colony("book", "undo", "--act", "9" * 30))


def test_a_nul_is_refused_in_each_database(book: Book) -> None:
    """PostgreSQL cannot hold one and SQLite would; both end in an answer."""
    house = furnished(book)
    told: list[str] = []
    with suppress(UnfitForBook):
        house.edit("Alma", name="a\0b")
        told.append("held")
    assert ("a\0b" in str(rows_of(book)["animal"]) or "a\\x00b" in str(rows_of(book))) == bool(told)


@pytest.mark.parametrize("name", [":memory:", "a?mode=memory&x", "100%41.colony", "a#b", "ä é"])
def test_a_name_of_a_file_is_a_name_and_nothing_more(tmp_path: Path, name: str) -> None:
    """No part of a path is taken for an option of the database, and the acts are in that file."""
    path = tmp_path / name
    book = open_book(str(path), begin=True)
    furnished(book)
    book.close()
    assert path.stat().st_size > 0
    with closing(sqlite3.connect(path)) as raw:
        assert raw.execute("SELECT count(*) FROM animal").fetchone() == (3,)


def test_markup_escape_codes_and_formulas_are_inert_everywhere(colony: Program) -> None:
    """Put into the tables behind the program's back, they come out of every list as plain text."""
    hostile = "\x1b[31m[bold]<script>&\x9b2J\x07"
    with closing(sqlite3.connect(colony.location)) as raw:
        raw.execute("UPDATE animal SET tag = ?, name = ?, note = ? WHERE id = 1", (hostile,) * 3)
        raw.execute("UPDATE tank SET code = ? WHERE id = 1", (hostile,))
        raw.commit()
    for words in (
        ("animal", "list"), ("animal", "list", "--json"), ("animal", "show", hostile),
        ("tank", "list"), ("book", "check"), ("book", "history", "--animal", hostile), (),
    ):  # fmt: skip
        _, out, err = colony(*words)
        assert "[bold]" in out or words in (("book", "history", "--animal", hostile), ())
        assert {char for char in out + err if not char.isprintable()} <= {"\n"}


DAMAGED = ("{", "7", "[1]", '[{"table": 1}]', "[" * 5000, '[{"undoes": 5}]', '[{"undoes":["x"]}]')


@pytest.mark.parametrize("changes", DAMAGED)
def test_a_damaged_entry_of_the_journal_is_said_and_never_guessed(changes: str) -> None:
    """What an entry tells may be anything by the time it is read."""
    entry = RecordedAct(7, datetime(2026, 3, 9, tzinfo=UTC), "x", "x", "x", changes)
    with pytest.raises(JournalDamaged, match="act 7"):
        assert [*entry.steps, *entry.undoes] == []


def test_a_book_with_a_damaged_journal_is_not_rebuilt_by_half(tmp_path: Path) -> None:
    """The rebuild is refused and leaves nothing; the check says it; acts go on."""
    book = open_book(str(tmp_path / "farm.colony"), begin=True)
    house = furnished(book)
    with closing(sqlite3.connect(book.location)) as raw:
        raw.execute(
            "INSERT INTO journal VALUES"
            " (99, '2026-03-09T10:00:00+00:00', '', '', '', '{', 'x', NULL, '')"
        )
        raw.commit()
    with pytest.raises(JournalDamaged):
        rebuild_book(book, str(tmp_path / "rebuilt.colony"))
    assert not (tmp_path / "rebuilt.colony").exists()
    with book.reading() as session:
        findings = check_book(session, today=TODAY)
    assert ("journal", "the journal") in [(finding.check, finding.where) for finding in findings]
    house.edit("Alma", note="goes on")
    book.close()


def test_no_import_of_a_hostile_tag_writes_outside_the_folder(
    colony: Program, tmp_path: Path
) -> None:
    """A tag that looks like a path is a tag: exports and backups stay where they belong."""
    sheet = tmp_path / "sheet.csv"
    sheet.write_text("tag,sex\n../../../x,F\n/etc/y,M\n")
    code, _, err = colony("book", "import", sheet)
    assert code == 0, err
    before = set(tmp_path.parent.rglob("*"))
    code, _, err = colony("book", "export", tmp_path / "out")
    assert code == 0, err
    made = set(tmp_path.parent.rglob("*")) - before
    assert made
    assert all(path.is_relative_to(tmp_path / "out") for path in made)


def test_the_program_itself_takes_bytes_that_are_no_text(tmp_path: Path) -> None:
    """The same through a real command line, where nothing stands between bytes and the program."""
    book = tmp_path / "farm.colony"
    open_book(str(book), begin=True).close()
    done = subprocess.run(
        [sys.executable, "-m", "colony", "--book", str(book), "animal", "show", b"\xff\xfe"],
        check=False,
        capture_output=True,
    )
    assert (done.returncode, done.stderr.count(b"\n")) == (2, 1)
    assert json.dumps(done.stderr.decode())
