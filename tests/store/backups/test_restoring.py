"""A restore loses no act of anybody, leaves nothing by half, and says what it found."""

import json
import os
import shutil
import signal
import sqlite3
import subprocess
import sys
from collections.abc import Iterator
from contextlib import closing
from pathlib import Path

import pytest
from checkout import ROOT, SUPPORT
from safety_house import House, furnished, rows_of

from colony.acts.book.backups import back_up, restore_backup
from colony.commands.cli.failures import run
from colony.refusals.base import act
from colony.refusals.books import BookBusy, NotRestored, NumberTaken
from colony.store.backups import restoring
from colony.store.book import Book, open_book
from colony.store.engine import turn

_WRITE_AND_DIE = """
import os, signal, sys
sys.path.insert(0, sys.argv[2])
from safety_house import House
from colony.store.book import open_book
house = House(open_book(sys.argv[1]))
for number in range(30):
    house.animal(f"P{number}", "F", "B2", note="x" * 1500)
os.kill(os.getpid(), signal.SIGKILL)
"""
"""Acts that are in the log of the file, not yet in the file, as after a failed power supply."""

_RESTORE_AND_DIE = """
import os, signal, sys
from pathlib import Path
from sqlalchemy import Engine, event
from colony.store.backups.restoring import restore

@event.listens_for(Engine, "commit")
def die(connection):
    if connection.dialect.name == "postgresql":
        os.kill(os.getpid(), signal.SIGKILL)

restore(sys.argv[1], Path(sys.argv[2]))
"""


@pytest.fixture(autouse=True)
def own_data_folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Backups of a server's book go into the user's data folder: here it is the test's own."""
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path / "data"))


@pytest.fixture
def shared(database: str) -> Iterator[Book]:
    """A furnished book on the server."""
    book = open_book(database, begin=True)
    furnished(book)
    yield book
    book.close()


@pytest.fixture
def file_book(begun: Path, tmp_path: Path) -> Iterator[Book]:
    """A furnished book in a file."""
    book = open_book(str(shutil.copy(begun, tmp_path / "farm.colony")))
    furnished(book)
    yield book
    book.close()


def in_process_of_its_own(program: str, *words: str) -> int:
    """Run a program that ends itself; its exit code."""
    done = subprocess.run(
        [sys.executable, "-c", program, *words],
        check=False,
        env=os.environ | {"PYTHONPATH": str(ROOT), "COLONY_WHO": "a drill"},
        timeout=120,
    )
    return done.returncode


def test_acts_go_on_after_a_restore_on_a_server_was_killed(shared: Book, tmp_path: Path) -> None:
    """Killed before its end a restore changes nothing, and the next rows get numbers of their own."""
    house, copy = House(shared), tmp_path / "first.colony"
    back_up(shared, to=copy)
    for number in range(5):
        house.animal(f"P{number}", "F", "B2")
    before = rows_of(shared)
    died = in_process_of_its_own(_RESTORE_AND_DIE, shared.location, str(copy))
    assert died == -signal.SIGKILL
    assert rows_of(shared) == before
    house.animal("Dora", "F", "B2")
    restore_backup(shared.location, copy=str(copy))
    house.animal("Eva", "F", "B2")


def test_a_counter_behind_its_rows_is_found_said_and_mended(
    shared: Book, capsys: pytest.CaptureFixture[str]
) -> None:
    """The check sees it, the act that meets it names the remedy, and the remedy works."""
    house = House(shared)
    words = ["--book", shared.location, "book"]
    assert run([*words, "check"]) == 0
    with shared.engine.begin() as connection:
        connection.exec_driver_sql("SELECT setval('animal_id_seq', 1)")
        connection.exec_driver_sql("SELECT setval('journal_id_seq', 1, false)")
    capsys.readouterr()
    assert run([*words, "check", "--json"]) == 1
    found = [load for load in json.loads(capsys.readouterr().out) if load["wrong"]]
    assert [(one["where"], one["mend"]) for one in found] == [
        ("animal", "colony book recount"),
        ("journal", "colony book recount"),
    ]
    with pytest.raises(NumberTaken) as refused:
        house.animal("Dora", "F")
    assert refused.value.remedies == (act("book recount"),)
    assert run([*words, "recount"]) == 0
    # The act that was refused took number 2 with it: a counter is not rolled back.
    assert "animal: counted on from 2, now from 3." in capsys.readouterr().out
    assert run([*words, "check"]) == 0
    house.animal("Dora", "F")
    assert run([*words, "recount"]) == 0
    assert "past its rows" in capsys.readouterr().out


def test_a_log_of_a_file_that_is_gone_is_not_read_into_the_restored_book(
    file_book: Book, tmp_path: Path
) -> None:
    """The book is what the backup holds; the log is set aside, told, and still holds its acts."""
    path, moved = Path(file_book.location), tmp_path / "moved.colony"
    back_up(file_book)
    whole = rows_of(file_book)
    file_book.close()
    assert in_process_of_its_own(_WRITE_AND_DIE, str(path), str(SUPPORT)) == -9
    path.rename(moved)
    said = _colony(path, "book", "restore", "newest", "--yes")
    with closing(open_book(str(path))) as restored:
        assert rows_of(restored) == whole
        House(restored).animal("Dora", "F")
    _colony(path, "book", "check")
    (log,) = [line.split()[2].rstrip(".") for line in said.splitlines() if "-wal" in line]
    Path(log).rename(f"{moved}-wal")
    with closing(open_book(str(moved))) as rejoined:
        assert {f"P{number}" for number in range(30)} <= {
            row[1] for row in rows_of(rejoined)["animal"]
        }


@pytest.mark.parametrize("wreck", [b"", b"junk" * 9000])
def test_a_wrecked_file_and_its_log_are_kept_as_they_are(file_book: Book, wreck: bytes) -> None:
    """Nothing opens them: the log may be all that is left of the last acts."""
    path = Path(file_book.location)
    back_up(file_book)
    whole = rows_of(file_book)
    file_book.close()
    assert in_process_of_its_own(_WRITE_AND_DIE, str(path), str(SUPPORT)) == -9
    path.write_bytes(wreck)
    log = Path(f"{path}-wal").read_bytes()
    done = restore_backup(str(path), copy="newest")
    assert Path(str(done.kept)).read_bytes() == wreck
    assert Path(done.set_aside[0]).read_bytes() == log
    with closing(open_book(str(path))) as restored:
        assert rows_of(restored) == whole


def test_a_restore_that_did_not_come_out_whole_is_not_called_done(
    file_book: Book, monkeypatch: pytest.MonkeyPatch
) -> None:
    """What is there is read again before it is said to be the backup."""
    path = Path(file_book.location)
    back_up(file_book)
    file_book.close()
    assert in_process_of_its_own(_WRITE_AND_DIE, str(path), str(SUPPORT)) == -9
    path.unlink()
    monkeypatch.setattr(restoring, "_set_aside", lambda *_: [None])
    with pytest.raises(NotRestored, match="did not come out whole"):
        restore_backup(str(path), copy="newest")


def test_a_backup_with_a_log_beside_it_is_put_back_with_the_acts_of_the_log(
    file_book: Book, tmp_path: Path
) -> None:
    """A book that somebody has open elsewhere can be put back too, its last act with it."""
    House(file_book).animal("Dora", "F")
    whole = rows_of(file_book)
    other = str(tmp_path / "other.colony")
    restore_backup(other, copy=file_book.location)
    with closing(open_book(other)) as restored:
        assert rows_of(restored) == whole


def test_a_restore_beside_a_writer_that_does_not_end_is_refused_whole(
    file_book: Book, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Nothing is overwritten, and nothing kept, while somebody is in the middle of an act."""
    back_up(file_book)
    House(file_book).animal("Dora", "F")
    before = rows_of(file_book)
    monkeypatch.setattr(restoring, "WAIT_SECONDS", 0.2)
    with turn(file_book.engine), pytest.raises(BookBusy):
        restore_backup(file_book.location, copy="newest")
    assert rows_of(file_book) == before


def test_a_restore_that_cannot_keep_what_is_there_overwrites_nothing(
    file_book: Book, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The copy of what was there comes first; without it the book stays as it is."""
    path = back_up(file_book).path
    House(file_book).animal("Dora", "F")
    before = rows_of(file_book)

    def full(*_: object, **__: object) -> None:
        raise sqlite3.OperationalError("database or disk is full")

    monkeypatch.setattr(restoring, "copy_file", full)
    with pytest.raises(Exception, match="full"):
        restore_backup(file_book.location, copy=path)
    assert rows_of(file_book) == before


def _colony(book: Path, *words: str) -> str:
    """Run the real program; what it says."""
    done = subprocess.run(
        [sys.executable, "-m", "colony", "--book", str(book), *words],
        check=True,
        capture_output=True,
        text=True,
        env=os.environ | {"PYTHONPATH": str(ROOT), "COLUMNS": "200"},
        timeout=120,
    )
    return done.stdout
