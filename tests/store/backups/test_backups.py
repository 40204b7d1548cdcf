"""Backups that can be trusted: whole while others write, verified, rotated, and drilled to restore."""

import datetime as dt
import json
import os
import sqlite3
import threading
from contextlib import closing
from pathlib import Path

import pytest
from safety_house import House, furnished, rows_of

from colony.acts.book.backups import back_up, list_backups, restore_backup
from colony.acts.book.history import list_history
from colony.commands.cli.failures import run
from colony.refusals.books import BookAlreadyThere, BookIsNewer, CopyDamaged, NoSuchCopy
from colony.store.backups.backups import Copy, copy_file, list_copies
from colony.store.backups.manifest import manifest_path
from colony.store.backups.rotation import kept_copies, throw_away
from colony.store.backups.verification import verify
from colony.store.book import Book, open_book
from colony.store.journal.entries import read_entries
from colony.store.journal.replay import differences, kept_rows, recorded_rows
from colony.store.settings import BookSettings


@pytest.fixture(autouse=True)
def own_data_folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Backups of a server's book go into the user's data folder: here it is the test's own."""
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path / "data"))


def test_a_restore_drill_brings_every_row_back_and_keeps_what_was_there(book: Book) -> None:
    """Back up, go on, lose everything, restore: the book is as it was, and the wreck is kept."""
    house = furnished(book)
    house.pair("Alma", "Bruno", "Caro")
    house.litter("Alma", "2F2M")
    whole = rows_of(book)
    made = back_up(book)
    house.animal("Dora", "F")
    later = rows_of(book)
    restored = restore_backup(book.location, copy="newest")
    assert restored.restored == made.path
    assert rows_of(book) == whole
    with book.reading() as session:
        newest = list_history(session, most=1)[0]
    assert (newest.act, newest.summary) == ("book restore", f"restored from {Path(made.path).name}")
    again = restore_backup(book.location, copy=str(restored.kept))
    assert rows_of(book) == later
    assert again.kept is not None
    house.animal("Eva", "F")


@pytest.mark.parametrize("harm", ["deleted", "garbage", "cut"])
def test_a_wrecked_file_is_replaced_by_its_backup(tmp_path: Path, harm: str) -> None:
    """Whatever happened to the file, the backup takes its place, and the file is kept as it is."""
    book = open_book(str(tmp_path / "farm.colony"), begin=True)
    furnished(book)
    whole, path = rows_of(book), Path(book.location)
    back_up(book)
    book.close()
    wreck = path.read_bytes()[:30_000] if harm == "cut" else os.urandom(50_000)
    path.unlink() if harm == "deleted" else path.write_bytes(wreck)
    restored = restore_backup(str(path), copy="newest")
    again = open_book(str(path))
    assert rows_of(again) == whole
    again.close()
    if harm != "deleted":
        assert Path(str(restored.kept)).read_bytes()[100:30_000] == wreck[100:30_000]


def test_a_copy_made_while_another_writes_is_of_one_moment(tmp_path: Path) -> None:
    """Each copy verifies, and its rows are what its own journal tells: no act is in it by half."""
    book = open_book(str(tmp_path / "farm.colony"), begin=True)
    house, done = furnished(book), threading.Event()

    def write() -> None:
        number = 0
        while not done.is_set():
            house.animal(f"P{number}", "F", "B2", dam="Alma", note="x" * 500)
            number += 1

    writer = threading.Thread(target=write)
    writer.start()
    for number in range(8):
        copy = tmp_path / f"copy{number}.colony"
        copy_file(book.location, copy)
        copied = open_book(str(copy))
        with copied.reading() as session:
            recorded = recorded_rows(read_entries(session))
            assert differences(recorded, kept_rows(session.connection())) == []
        copied.close()
    done.set()
    writer.join()
    book.close()


def test_a_backup_that_is_damaged_or_newer_is_not_put_in_place(tmp_path: Path) -> None:
    """Restoring looks first; a bad backup leaves the book as it is."""
    book = open_book(str(tmp_path / "farm.colony"), begin=True)
    furnished(book)
    whole, made = rows_of(book), Path(back_up(book, to=tmp_path / "good.colony").path)
    damaged = tmp_path / "damaged.colony"
    damaged.write_bytes(made.read_bytes()[:20_000])
    with pytest.raises(CopyDamaged, match="the book was not touched"):
        restore_backup(book.location, copy=str(damaged))
    with closing(sqlite3.connect(made)) as copy:
        copy.execute("UPDATE alembic_version SET version_num = '9999'")
        copy.commit()
    with pytest.raises(CopyDamaged, match="not those that were written"):
        restore_backup(book.location, copy=str(made))
    manifest_path(made).unlink()
    with pytest.raises(BookIsNewer):
        restore_backup(book.location, copy=str(made))
    with pytest.raises((NoSuchCopy, CopyDamaged)):
        restore_backup(book.location, copy="../../etc/passwd")
    with pytest.raises(BookAlreadyThere):
        back_up(book, to=made)
    assert rows_of(book) == whole
    book.close()


def test_verification_finds_a_reference_to_nothing(tmp_path: Path) -> None:
    """A copy whose rows hang in the air is no backup."""
    book = open_book(str(tmp_path / "farm.colony"), begin=True)
    furnished(book)
    path = Path(back_up(book).path)
    book.close()
    verify(path)
    with closing(sqlite3.connect(path)) as copy:
        copy.execute("DELETE FROM tank")
        copy.commit()
    with pytest.raises(CopyDamaged, match="not there"):
        verify(path)


def test_the_rotation_keeps_days_then_weeks_then_months_and_never_the_newest_away() -> None:
    """Of two years of daily copies are left the last days, one of a week, one of a month."""
    noon = dt.datetime(2026, 3, 9, 12, tzinfo=dt.UTC)
    daily = [Copy(Path(f"{ago}"), noon - dt.timedelta(days=ago), "daily", 1) for ago in range(730)]
    settings = BookSettings(backup_days=7, backup_weeks=4, backup_months=12)
    kept = {str(copy.made.date()) for copy in kept_copies(daily, settings)}
    days = {f"2026-03-{day:02}" for day in range(3, 10)}
    sundays = {"2026-03-08", "2026-03-01", "2026-02-22"}  # 9 March 2026 is a Monday
    ends = "01-31 02-28", "12-31 11-30 10-31 09-30 08-31 07-31 06-30 05-31 04-30"
    months = {f"2026-{day}" for day in ends[0].split()} | {f"2025-{day}" for day in ends[1].split()}
    assert kept == days | sundays | months


def test_the_rotation_throws_away_daily_copies_only(tmp_path: Path) -> None:
    """What a person or an upgrade put there is not ours to delete."""
    folder = tmp_path / "backups"
    folder.mkdir()
    for name in (
        "farm-20260301T120000000000-daily.colony",
        "farm-20260302T120000000000-daily.colony",
        "farm-20200101T120000000000-by-hand.colony",
        "farm-20200101T120000000000-schema-0001.colony",
        "other-20200101T120000000000-daily.colony",
        "notes.txt",
    ):
        (folder / name).write_text("x")
    location = str(tmp_path / "farm.colony")
    throw_away(location, BookSettings(backup_days=1, backup_weeks=0, backup_months=0), "farm")
    assert not (folder / "farm-20260301T120000000000-daily.colony").exists()
    assert len(list(folder.iterdir())) == 5
    assert len(list_copies(location)) == 3


def test_the_commands_back_up_list_and_restore(
    book: Book, capsys: pytest.CaptureFixture[str]
) -> None:
    """The same from a terminal, in sentences and as JSON."""
    furnished(book)
    whole = rows_of(book)

    def colony(*words: str) -> str:
        assert run(["--book", book.location, *words]) == 0
        return capsys.readouterr().out

    assert colony("book", "backup", "--list").startswith("There is no backup yet")
    made = json.loads(colony("book", "backup", "--json"))
    assert Path(made["path"]).stat().st_size == made["bytes"]
    (line,) = json.loads(colony("book", "backup", "--list", "--json"))
    assert line["reason"] == "by-hand"
    House(book).animal("Dora", "F")
    assert "What was there is kept" in colony("book", "restore", "newest", "--yes")
    assert rows_of(book) == whole
    assert len(list_backups(book.location)) == 2
