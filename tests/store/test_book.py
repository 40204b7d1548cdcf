"""Beginning and opening a book."""

import os
import sqlite3
import subprocess
import sys
from concurrent.futures import ThreadPoolExecutor
from contextlib import closing
from pathlib import Path

import pytest
from checkout import ROOT
from farm import Farm
from sqlmodel import Session, select

from colony.records import Species
from colony.refusals.books import (
    BookAlreadyThere,
    BookIsNewer,
    FolderNotThere,
    NoSuchBook,
    NotABook,
    UnknownDatabase,
)
from colony.store.book import begin_book, open_book
from colony.store.schema.book_version import SCHEMA
from colony.store.schema.first_species import first_species

DATABASE_OF_SOMETHING_ELSE = "CREATE TABLE invoice (id INTEGER PRIMARY KEY)"


def test_a_new_book_knows_the_species_known_from_print(farm: Farm) -> None:
    """Every number of the first species has a source; its beginning is the first act."""
    with farm.book.reading() as session:
        names = set(session.exec(select(Species.name)).all())
    assert names == first_species().keys()
    assert farm.rows("SELECT count(*) FROM life_history WHERE source = ''") == [(0,)]
    assert farm.rows("SELECT act FROM journal") == [("book begin",)]


def test_no_book_is_begun_by_looking_for_one(tmp_path: Path) -> None:
    """Reading at a mistyped path says so, and makes no file."""
    with pytest.raises(NoSuchBook, match=r"nowhere\.colony"):
        open_book(str(tmp_path / "nowhere.colony"))
    assert list(tmp_path.iterdir()) == []


def test_a_new_book_never_replaces_what_is_there(farm_file: Farm, tmp_path: Path) -> None:
    """Not a book, not any other file."""
    other = tmp_path / "notes.txt"
    other.write_text("of the spring", encoding="utf-8")
    for path in (farm_file.path, other):
        with pytest.raises(BookAlreadyThere, match=path.name):
            begin_book(str(path))
    assert other.read_text(encoding="utf-8") == "of the spring"


def test_a_new_book_needs_its_folder(tmp_path: Path) -> None:
    """A folder that is not there is a disk that is not mounted, or a slip."""
    with pytest.raises(FolderNotThere, match="lost"):
        open_book(str(tmp_path / "lost" / "farm.colony"), begin=True)


def test_a_text_a_folder_and_another_database_are_no_books(tmp_path: Path) -> None:
    """Each is told by its path, and left as it was."""
    text, folder, other = (tmp_path / name for name in ("a.txt", "folder", "other.db"))
    text.write_text("Alma,F,2021\n" * 200, encoding="utf-8")
    folder.mkdir()
    with closing(sqlite3.connect(other)) as database:
        database.execute(DATABASE_OF_SOMETHING_ELSE)
    for path in (text, folder, other):
        kept = None if path.is_dir() else path.read_bytes()
        for begin in (False, True):
            with pytest.raises(NotABook, match=path.name):
                open_book(str(path), begin=begin)
        assert kept is None or path.read_bytes()[100:] == kept[100:]


def test_an_empty_file_is_no_book_but_can_become_one(tmp_path: Path) -> None:
    """Looking at it refuses; beginning a book fills it."""
    path = tmp_path / "farm.colony"
    path.touch()
    with pytest.raises(NoSuchBook):
        open_book(str(path))
    open_book(str(path), begin=True).close()
    open_book(str(path)).close()


def test_a_book_of_a_newer_program_is_not_touched(farm_file: Farm) -> None:
    """Its schema is named; what it says is left to the program that wrote it."""
    farm_file.write("UPDATE alembic_version SET version_num = '9999'")
    before = farm_file.written()
    with pytest.raises(BookIsNewer, match="9999"):
        open_book(str(farm_file.path))
    assert farm_file.written() == before


@pytest.mark.parametrize("url", ["mysql://host/farm", "nonsense://x", "http://host/book"])
def test_a_url_of_another_database_is_wrong_use(url: str) -> None:
    """A book is a file or a PostgreSQL URL."""
    with pytest.raises(UnknownDatabase):
        open_book(url, begin=True)


def test_two_processes_that_begin_one_book_make_one_book(tmp_path: Path) -> None:
    """Whoever comes second finds it begun: one set of species, one first act, no error."""
    path = tmp_path / "farm.colony"
    command = [sys.executable, "-m", "colony", "--book", str(path), "animal", "add"]
    root = {"PYTHONPATH": str(ROOT), "PATH": os.environ["PATH"]}

    def add(tag: str) -> subprocess.CompletedProcess[str]:
        return subprocess.run(
            [*command, tag], env=root, capture_output=True, text=True, check=False
        )

    with ThreadPoolExecutor(2) as at_once:
        done = list(at_once.map(add, ["Alma", "Bruno"]))
    assert [one.returncode for one in done] == [0, 0], [one.stderr for one in done]
    with closing(sqlite3.connect(path)) as book:
        counts = {
            name: book.execute(f"SELECT count(*) FROM {name}").fetchone()[0]  # noqa: S608 - names of tables
            for name in ("species", "animal", "alembic_version")
        }
        acts = [act for (act,) in book.execute("SELECT act FROM journal ORDER BY id")]
    assert counts == {"species": len(first_species()), "animal": 2, "alembic_version": 1}
    assert acts == ["book begin", "animal add", "animal add"]


def test_a_book_says_its_schema(farm: Farm) -> None:
    """One row: the version that the program knows as its own."""
    assert farm.rows("SELECT version_num FROM alembic_version") == [(SCHEMA,)]


def test_what_is_done_while_reading_is_thrown_away(farm: Farm) -> None:
    """Only an act writes."""
    before = farm.written()
    with farm.book.reading() as session:
        session.add(Species(name="x", scientific_name="X x"))
        session.flush()
        assert isinstance(session, Session)
    assert farm.written() == before
