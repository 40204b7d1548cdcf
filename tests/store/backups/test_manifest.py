"""Backups know their book: another one's is refused, the newest is by its acts, each is tried."""

import datetime as dt
import json
from contextlib import closing
from pathlib import Path

import pytest
from safety_house import TODAY, House, furnished

from colony.acts.animals.animals import edit_animal
from colony.acts.book.backups import back_up, backup_state, list_backups, restore_backup
from colony.commands.cli.failures import run
from colony.notation.fields.facts import AnimalFacts
from colony.refusals.books import BackupOfAnotherBook, CopyDamaged, FolderNotThere
from colony.store import clock
from colony.store.backups.backups import list_copies, newest_of
from colony.store.backups.daily import TEST_EVERY, backup_to_try, try_backup
from colony.store.backups.manifest import manifest_path
from colony.store.book import Book, begin_book, open_book

NOW = dt.datetime(2026, 3, 9, 8, tzinfo=dt.UTC)


@pytest.fixture
def house(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> House:
    """A furnished house, on a morning that tests move."""
    monkeypatch.setattr(clock, "now", lambda: NOW)
    return furnished(open_book(str(tmp_path / "farm.colony"), begin=True))


def on(monkeypatch: pytest.MonkeyPatch, days: float) -> None:
    """So many days later."""
    monkeypatch.setattr(clock, "now", lambda: NOW + dt.timedelta(days=days))


def test_a_backup_of_another_book_is_refused(house: House, tmp_path: Path) -> None:
    """Also one of the same name in the same folder; where no book is, it is taken."""
    made = back_up(house.book)
    house.book.close()
    Path(house.book.location).unlink()
    other = begin_book(house.book.location)
    assert list_backups(other.location) == []
    with pytest.raises(BackupOfAnotherBook, match="another book"):
        restore_backup(other.location, copy=made.path)
    other.close()
    assert restore_backup(str(tmp_path / "free.colony"), copy=made.path).kept is None


def test_the_newest_is_the_one_with_the_last_acts(
    house: House, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A clock that went wrong for a morning does not make an old copy the newest."""
    on(monkeypatch, 400)
    wrong = back_up(house.book)
    on(monkeypatch, 1)
    house.edit("Alma", note="later")
    right = back_up(house.book)
    copies = list_copies(house.book.location)
    assert copies[0].path == Path(wrong.path)
    newest = newest_of(copies)
    assert newest is not None
    assert newest.path == Path(right.path)


def test_a_path_goes_before_a_name(house: House, tmp_path: Path) -> None:
    """What is named as a path is taken, though the folder of backups has one of that name."""
    made = Path(back_up(house.book).path)
    house.edit("Alma", note="since")
    back_up(house.book, to=tmp_path / made.name)
    done = restore_backup(house.book.location, copy=str(tmp_path / made.name))
    assert done.restored == str(tmp_path / made.name)


def test_a_manifest_that_was_touched_is_refused(house: House) -> None:
    """It says which bytes the backup has; one that cannot be read says nothing good."""
    made = Path(back_up(house.book).path)
    manifest = manifest_path(made)
    written = json.loads(manifest.read_text())
    manifest.write_text(json.dumps(written | {"sha256": "0" * 64}))
    with pytest.raises(CopyDamaged, match="not those that were written"):
        restore_backup(house.book.location, copy=str(made))
    manifest.write_text("{")
    with pytest.raises(CopyDamaged, match="cannot be read"):
        restore_backup(house.book.location, copy=str(made))


def test_a_folder_that_is_not_there_is_not_made(house: House, tmp_path: Path) -> None:
    """It is a disk that is not mounted: a copy beside the book would be no second one."""
    with pytest.raises(FolderNotThere):
        back_up(house.book, to=tmp_path / "usb" / "farm.colony")
    assert not (tmp_path / "usb").exists()


def test_once_a_week_the_newest_backup_is_restored_as_a_test(
    house: House, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The first act after a week asks for it, and when is written beside the backup."""
    tested = []
    for days in (1, 2, 7.5, 8.5, 9.5):
        on(monkeypatch, days)
        backup = after_an_act(house, f"day {days}")
        assert backup is None or try_backup(backup) is None
        tested.append(backup_state(house.book.location).tested)
    first, second = NOW + dt.timedelta(days=1), NOW + dt.timedelta(days=8.5)
    assert tested == [first, first, first, second, second]
    assert dt.timedelta(days=7) == TEST_EVERY


def after_an_act(house: House, note: str) -> Path | None:
    """Correct a note; the backup that is to be tried after it."""
    with house.book.act("animal edit") as session:
        edit_animal(session, tag="Alma", facts=AnimalFacts(note=note), today=TODAY)
    return backup_to_try(session)


def test_a_backup_that_cannot_be_restored_is_told_in_a_sentence(
    house: House, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The act itself is written; what is wrong with the backup is said beside it."""
    on(monkeypatch, 1)
    backup = after_an_act(house, "the copy is made")
    assert backup is not None
    backup.write_bytes(backup.read_bytes()[:-4096])
    said = try_backup(backup)
    assert said is not None
    assert said.startswith("The newest backup could not be restored as a test.")
    assert backup_state(house.book.location).tested is None


def test_a_command_tries_the_backup_when_it_has_answered(
    house: House, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """The answer comes first; a good backup is not worth a word."""
    on(monkeypatch, 1)
    assert run(["animal", "edit", "Alma", "--note", "x", "--book", house.book.location]) == 0
    assert capsys.readouterr().err == ""
    assert backup_state(house.book.location).tested == NOW + dt.timedelta(days=1)


def test_a_book_that_goes_on_keeps_its_identity(
    house: House, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A restored book is the one that it was, so that its other backups are its own."""
    first = back_up(house.book)
    on(monkeypatch, 0.1)
    house.edit("Alma", note="since")
    back_up(house.book)
    on(monkeypatch, 0.2)
    restore_backup(house.book.location, copy=first.path)
    assert len(list_backups(house.book.location)) == 3
    assert restore_backup(house.book.location, copy="newest").kept is not None
    with closing(open_book(house.book.location)) as again:
        assert isinstance(again, Book)
    assert tmp_path.exists()


def test_two_books_in_one_folder_have_each_their_own_copies(
    house: House, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Also where their names differ by nothing but the ending: each has its copy of the day."""
    other = furnished(open_book(str(tmp_path / "farm.book"), begin=True))
    on(monkeypatch, 1)
    for each in (house, other):
        each.edit("Alma", note="a day later")
        on(monkeypatch, 1.1)
    assert [len(list_backups(each.book.location)) for each in (house, other)] == [1, 1]
    (own,), (others,) = (list_backups(each.book.location) for each in (house, other))
    assert own.name != others.name
