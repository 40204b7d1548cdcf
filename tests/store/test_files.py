"""Files are whole or not there, and their owner's alone unless the book is not."""

import os
import stat
import subprocess
import sys
from pathlib import Path

import pytest
from safety_house import furnished

from colony.acts.book.backups import back_up
from colony.store.book import Book, open_book
from colony.store.files import rights_of, settle

pytestmark = pytest.mark.skipif(os.name == "nt", reason="rights of POSIX")


@pytest.fixture
def file_book(tmp_path: Path) -> Book:
    """A furnished book in a file."""
    book = open_book(str(tmp_path / "farm.colony"), begin=True)
    furnished(book)
    return book


def rights(path: Path) -> int:
    """The rights of a file."""
    return stat.S_IMODE(path.stat().st_mode)


def test_what_the_program_makes_is_its_owners_alone(tmp_path: Path) -> None:
    """Whatever the shell set before: the book, its backups, an export and its folder."""
    script = (
        "umask 000; c() { "
        f'{sys.executable} -m colony --book farm.colony "$@"; }}; '
        "c animal add Alma --species leopoldi && c book backup && c book export out "
        "&& c book copy farm.colony copy.colony"
    )
    subprocess.run(["sh", "-c", script], cwd=tmp_path, check=True, capture_output=True)
    made = [path for path in tmp_path.rglob("*") if path.suffix != ".pyc"]
    assert len(made) > 6
    assert {path.name: oct(rights(path)) for path in made if rights(path) & 0o077} == {}


def test_a_backup_has_the_rights_of_the_book(file_book: Book) -> None:
    """Who shares a book with a group shares its backups."""
    path = Path(file_book.location)
    path.chmod(0o640)
    copy = Path(back_up(file_book).path)
    assert rights(copy) == rights_of(path) == 0o640
    file_book.close()


def test_a_file_is_settled_whole(tmp_path: Path) -> None:
    """The unfinished name is gone, the old content replaced."""
    unfinished, path = tmp_path / "a.part", tmp_path / "a"
    path.write_text("old")
    unfinished.write_text("new")
    settle(unfinished, path)
    assert (path.read_text(), rights(path), unfinished.exists()) == ("new", 0o600, False)
    assert rights_of(tmp_path / "nowhere") == rights_of(None) == 0o600
