"""Accidents of disks, mounts, rights and clocks: one sentence each, and nothing lost."""

import datetime as dt
import json
import os
import subprocess
import sys
from collections.abc import Iterator
from contextlib import closing, suppress
from pathlib import Path

import pytest
from safety_house import TODAY, House, furnished, rows_of
from sqlalchemy import event

from colony.acts.animals.animals import edit_animal
from colony.acts.book.history import list_history
from colony.acts.book.undo import undo_last
from colony.commands.cli.failures import run
from colony.notation.fields.facts import AnimalFacts
from colony.refusals.books import (
    BookBusy,
    BookNotReachable,
    BookVanished,
    DiskFull,
    FolderNotThere,
    NotABook,
)
from colony.store import clock, engine
from colony.store.backups.backups import list_copies
from colony.store.backups.daily import concerns_of
from colony.store.book import Book, begin_book, open_book
from colony.store.engine import turn

_AS_NOBODY_SPECIAL = (
    ("setpriv", "--bounding-set=-dac_override,-dac_read_search") if os.geteuid() == 0 else ()
)
"""Rights of files bind root too without these."""


@pytest.fixture
def file_book(tmp_path: Path) -> Iterator[Book]:
    """A furnished book in a file."""
    (tmp_path / "disk").mkdir()
    book = open_book(str(tmp_path / "disk" / "farm.colony"), begin=True)
    furnished(book)
    yield book
    book.close()


@pytest.fixture
def small_disk(tmp_path: Path) -> Iterator[Path]:
    """A disk of 2 MB, where this system lets us make one."""
    disk = tmp_path / "small"
    disk.mkdir()
    made = subprocess.run(
        ["mount", "-t", "tmpfs", "-o", "size=2m", "none", str(disk)],
        check=False,
        capture_output=True,
    )
    if made.returncode:
        pytest.skip("this system does not let the test make a disk")
    yield disk
    subprocess.run(["umount", "--lazy", str(disk)], check=True)


def colony(*words: str, book: Path) -> subprocess.CompletedProcess[str]:
    """Run the program as somebody whom the rights of files bind."""
    return subprocess.run(
        [*_AS_NOBODY_SPECIAL, sys.executable, "-m", "colony", "--book", str(book), *words],
        check=False,
        capture_output=True,
        text=True,
    )


def _fill(path: Path) -> None:
    """Write until the disk is full."""
    with path.open("wb", buffering=0) as file, suppress(OSError):
        while True:
            file.write(bytes(4096))


def test_a_file_that_may_not_grow_loses_nothing_that_was_there(file_book: Book) -> None:
    """When SQLite finds no room, the act is refused whole and the book is as before."""
    house = House(file_book)
    with file_book.engine.connect() as connection:
        pages = connection.exec_driver_sql("PRAGMA page_count").scalar_one() + 12
        connection.exec_driver_sql(f"PRAGMA max_page_count = {pages}")
    event.listen(
        file_book.engine, "connect", lambda one, _: one.execute(f"PRAGMA max_page_count = {pages}")
    )
    written = 0
    with pytest.raises(DiskFull, match="all that was in it is safe"):  # noqa: PT012 - one of these is it
        for number in range(500):
            house.edit("Alma", note=f"{number} " + "x" * 1900)
            written = number
    (alma,) = [row for row in rows_of(file_book)["animal"] if row[1] == "Alma"]
    assert written > 0
    assert any(str(value).startswith(f"{written} x") for value in alma)


def test_a_full_disk_is_one_sentence_and_the_book_is_whole(
    small_disk: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """On a disk that is really full the commands refuse; with room again all is there."""
    book = begin_book(str(small_disk / "farm.colony"))
    furnished(book)
    before = rows_of(book)
    book.close()
    filler = small_disk / "filler"
    _fill(filler)
    assert run(["--book", book.location, "animal", "edit", "Alma", "--note", "x" * 1999]) == 1
    assert run(["--book", book.location, "book", "backup"]) == 1
    said = capsys.readouterr().err.splitlines()
    assert len(said) == 2
    assert all(line.startswith("colony: The ") for line in said)
    read = colony("animal", "list", book=Path(book.location))
    assert (read.returncode, read.stderr) == (0, "")
    assert "Alma" in read.stdout
    filler.unlink()
    again = open_book(book.location)
    assert rows_of(again) == before
    again.close()
    assert [path.name for path in small_disk.glob("**/*.part")] == []


def test_a_folder_that_may_only_be_read_can_be_read_and_the_rest_is_one_sentence(
    file_book: Book,
) -> None:
    """A book on a locked card is read as ever; what would write in it is refused in a sentence."""
    file_book.close()
    path = Path(file_book.location)
    path.chmod(0o444)
    path.parent.chmod(0o555)
    try:
        listed = colony("animal", "list", book=path)
        assert (listed.returncode, listed.stderr) == (0, "")
        assert "Alma" in listed.stdout
        for words in (("animal", "edit", "Alma", "--note", "x"), ("book", "backup")):
            done = colony(*words, book=path)
            assert (done.returncode, done.stderr.count("\n")) == (1, 1), done.stderr
        begun = colony("animal", "add", "Dora", book=path.with_name("other.colony"))
        assert (begun.returncode, begun.stderr.count("\n")) == (1, 1)
    finally:
        path.parent.chmod(0o755)
        path.chmod(0o644)
    assert "x" not in str(rows_of(open_book(str(path)))["animal"])


def test_an_open_book_whose_disk_vanished_takes_no_act(file_book: Book) -> None:
    """Acts would go into a file that nobody sees again; when the disk is back, they are taken."""
    house, disk = House(file_book), Path(file_book.location).parent
    disk.rename(disk.with_name("away"))
    with pytest.raises(BookVanished):
        house.edit("Alma", note="lost?")
    disk.with_name("away").rename(disk)
    house.edit("Alma", note="safe")


def test_a_book_is_not_begun_where_a_disk_is_missing(tmp_path: Path) -> None:
    """A new book in the place of one that is not mounted would hide it."""
    with pytest.raises(FolderNotThere, match="is its disk mounted"):
        open_book(str(tmp_path / "stick" / "farm.colony"), begin=True)
    assert list(tmp_path.iterdir()) == []


def test_a_writer_that_does_not_end_is_said_after_a_while(
    book: Book, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Nobody is told that something is locked; the sentence says what to do."""
    furnished(book)
    monkeypatch.setattr(engine, "WAIT_SECONDS", 0.2)
    impatient = open_book(book.location)
    with (
        turn(book.engine),
        pytest.raises(BookBusy, match="end the other program"),
        impatient.act("animal edit") as session,
    ):
        edit_animal(session, tag="Alma", facts=AnimalFacts(note="x"), today=TODAY)
    impatient.close()


def test_a_file_of_something_else_is_no_book(tmp_path: Path) -> None:
    """A photograph or another program's database is left alone."""
    photo = tmp_path / "photo.colony"
    photo.write_bytes(b"\x89PNG" + bytes(5000))
    with pytest.raises(NotABook):
        open_book(str(photo))
    assert photo.read_bytes() == b"\x89PNG" + bytes(5000)


def test_a_page_that_rotted_is_said_plainly(file_book: Book) -> None:
    """A book with a broken page is not read as if it were whole."""
    house = House(file_book)
    for number in range(60):
        house.edit("Alma", note=f"{number} " + "x" * 1900)
    file_book.close()
    path = Path(file_book.location)
    whole = bytearray(path.read_bytes())
    for page in range(12, len(whole) // 4096):
        whole[page * 4096 : page * 4096 + 2000] = os.urandom(2000)
    path.write_bytes(whole)
    with pytest.raises((NotABook, BookNotReachable)) as refused:  # noqa: PT012 - one of these is it
        book = open_book(str(path))
        rows_of(book)
        with book.reading() as session:
            list_history(session)
    assert "malformed" in refused.value.sentence


def test_a_clock_that_was_set_back_is_said_and_the_act_is_kept(
    book: Book, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The order of acts is by number, so a wrong clock mixes nothing up; a person is told."""
    house = furnished(book)
    monkeypatch.setattr(clock, "now", lambda: dt.datetime(2001, 1, 1, tzinfo=dt.UTC))
    with book.act("animal edit") as session:
        edit_animal(session, tag="Alma", facts=AnimalFacts(note="x"), today=TODAY)
    assert "The clock says 2001-01-01" in concerns_of(session)[0]
    with book.reading() as session:
        assert list_history(session)[0].at.year == 2001
    house.do("book undo", undo_last)


def test_a_day_begins_with_a_backup_and_a_failed_one_is_said(
    file_book: Book, monkeypatch: pytest.MonkeyPatch
) -> None:
    """One copy before the first act of a day, none for the next; the act is written anyway."""
    house, folder = House(file_book), Path(file_book.location).parent / "backups"
    assert list_copies(file_book.location) == []
    tomorrow = clock.now() + dt.timedelta(days=1)
    monkeypatch.setattr(clock, "now", lambda: tomorrow)
    house.edit("Alma", note="first")
    house.edit("Alma", note="second")
    (copy,) = list_copies(file_book.location)
    with closing(copied := open_book(str(copy.path))):
        assert "first" not in str(rows_of(copied)["animal"])
    for file in folder.iterdir():
        file.unlink()
    folder.rmdir()
    folder.write_text("in the way")
    with file_book.act("animal edit") as session:
        edit_animal(session, tag="Alma", facts=AnimalFacts(note="third"), today=TODAY)
    assert concerns_of(session)[0].startswith("No backup was made today.")
    assert "third" in str(rows_of(file_book)["animal"])


_WRITER = """
import sys, time
from datetime import date
from colony.acts.animals.animals import edit_animal
from colony.notation.fields.facts import AnimalFacts
from colony.store.book import open_book
book = open_book(sys.argv[1])
ends = time.monotonic() + 8
number = 0
while time.monotonic() < ends:
    with book.act("animal edit") as session:
        facts = AnimalFacts(note=f"{number} " + "x" * 1900)
        edit_animal(session, tag="Alma", facts=facts, today=date(2026, 3, 9))
    number += 1
"""


def test_who_may_not_write_reads_right_beside_a_writer_and_can_back_up(file_book: Book) -> None:
    """Each reading is of one moment: never torn, never older than the one before."""
    file_book.close()
    path = Path(file_book.location)
    writer = subprocess.Popen([sys.executable, "-c", _WRITER, str(path)])
    # Only the writer, who has the file open already, may write in this folder.
    path.parent.chmod(0o755)
    try:
        numbers = []
        while writer.poll() is None:
            path.parent.chmod(0o555)
            read = colony("animal", "show", "Alma", "--json", book=path)
            path.parent.chmod(0o755)
            assert read.returncode == 0, read.stderr
            note = json.loads(read.stdout)["note"]
            numbers.append(int(note.split()[0]) if note else -1)
        assert numbers == sorted(numbers)
        assert len(numbers) >= 3
    finally:
        writer.kill()
        writer.wait()
        path.parent.chmod(0o755)
    path.parent.chmod(0o555)
    copy = path.parent.parent / "copy.colony"
    try:
        done = colony("book", "backup", "--to", str(copy), book=path)
    finally:
        path.parent.chmod(0o755)
    assert done.returncode == 0, done.stderr
    with closing(open_book(str(copy))) as copied, closing(open_book(str(path))) as there:
        assert rows_of(copied) == rows_of(there)
