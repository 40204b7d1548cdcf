"""A book of every schema that was ever released opens with all its data, in each database."""

import sqlite3
from contextlib import closing
from pathlib import Path
from typing import Any

import pytest
from checkout import FIXTURES
from safety_house import House, rows_of
from sqlalchemy import Boolean, Connection, column, inspect, table

from colony.acts.book.backups import restore_backup
from colony.acts.book.undo import undo_last
from colony.refusals.books import BookIsNewer, NotABook
from colony.store.backups.backups import list_copies
from colony.store.backups.identity import identity_at
from colony.store.backups.transfer import rebuild_book
from colony.store.book import open_book
from colony.store.engine import make_engine, turn
from colony.store.journal.entries import read_entries
from colony.store.journal.replay import differences, kept_rows, recorded_rows
from colony.store.schema import book_version as versions
from colony.store.schema.upgrade import known_versions, upgrade

BOOKS = FIXTURES / "books"
RELEASED = sorted(path.stem for path in BOOKS.glob("*.sql"))

Tables = dict[str, list[dict[str, Any]]]

WITH_IDENTITY = "0006"
"""The first schema in which a book has an identity."""


def test_every_schema_version_has_a_book_to_try() -> None:
    """Whoever writes a schema script leaves a book of it, and the program knows the newest."""
    assert set(RELEASED) == known_versions()
    assert max(known_versions()) == versions.SCHEMA


@pytest.mark.parametrize("version", RELEASED)
def test_a_released_schema_script_is_never_edited(version: str, tmp_path: Path) -> None:
    """The script still makes exactly the tables that books of its version have."""
    made, released = tmp_path / "made.colony", tmp_path / "released.colony"
    engine = make_engine(str(made))
    with turn(engine) as connection:
        upgrade(connection, version)
    engine.dispose()
    load(version, released)
    assert schema_of(made) == schema_of(released)


def load(version: str, path: Path) -> None:
    """A book of one released version, as a file."""
    with closing(sqlite3.connect(path)) as book:
        book.executescript((BOOKS / f"{version}.sql").read_text("utf-8"))


def schema_of(path: Path) -> dict[str, str]:
    """The statement that made each table, index and trigger, its spacing left out."""
    with closing(sqlite3.connect(path)) as book:
        found = book.execute("SELECT name, sql FROM sqlite_schema WHERE sql IS NOT NULL")
        return {name: " ".join(sql.split()) for name, sql in found}


@pytest.fixture(params=RELEASED)
def old(request: pytest.FixtureRequest, tmp_path: Path) -> Path:
    """A book of one released version, as a file."""
    path = tmp_path / "old.colony"
    load(request.param, path)
    return path


def raw_rows(path: Path) -> Tables:
    """Every row of a file, without this program."""
    with closing(sqlite3.connect(path)) as book:
        book.row_factory = sqlite3.Row
        names = [
            name for (name,) in book.execute("SELECT name FROM sqlite_schema WHERE type='table'")
        ]
        return {
            name: [dict(row) for row in book.execute(f"SELECT * FROM {name} ORDER BY 1")]  # noqa: S608 - its own names
            for name in names
            if name != "alembic_version"
        }


def kept(before: Tables, after: Tables) -> bool:
    """Whether each row that was there is still there, in each of its columns."""
    return all(
        any(row.items() <= now.items() for now in after[name])
        for name, rows in before.items()
        for row in rows
    )


def test_a_backup_of_an_older_schema_is_put_in_place_as_one_of_the_newest(
    old: Path, tmp_path: Path
) -> None:
    """The book that others go on in is of this program's schema; the backup itself is not changed."""
    path, before = tmp_path / "farm.colony", old.read_bytes()
    if versions_of(old) < WITH_IDENTITY:
        open_book(str(path), begin=True).close()
    there = identity_at(str(path))
    restore_backup(str(path), copy=str(old))
    with closing(sqlite3.connect(path)) as book:
        assert book.execute("SELECT version_num FROM alembic_version").fetchone() == (
            versions.SCHEMA,
        )
    assert set(raw_rows(path)["animal"][0]) >= set(raw_rows(old)["animal"][0])
    assert old.read_bytes() == before
    # One that has no identity of its own goes on as the book that was there.
    assert there in (None, identity_at(str(path)))


def test_an_old_book_opens_with_all_its_data(old: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Each row and act of it is there in every column, its journal tells it, and undo goes on."""
    monkeypatch.setenv("COLONY_WHO", "Ada")  # who wrote these books
    before = raw_rows(old)
    version = versions_of(old)
    book = open_book(str(old))
    # The upgrade is an act of its own: the head of the chain moves on.
    told = {
        name: [{"id": row["id"]} for row in rows] if name == "book" else rows
        for name, rows in before.items()
    }
    assert kept(told, raw_rows(old))
    with book.reading() as session:
        recorded = recorded_rows(read_entries(session))
        assert differences(recorded, kept_rows(session.connection())) == []
    copies = list_copies(str(old))
    assert [copy.reason for copy in copies] == [f"schema-{version}"] * (version != versions.SCHEMA)
    assert all(raw_rows(copy.path) == before for copy in copies)
    rebuilt = open_book(rebuild_book(book, str(old.with_name("rebuilt.colony"))).location)
    assert rows_of(rebuilt) == rows_of(book)
    House(book).do("book undo", undo_last, count=5)
    rebuilt.close()
    book.close()


def test_an_old_book_on_postgresql_opens_with_all_its_data(
    old: Path, database: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The same on a server: a copy of the old version first, then every row as it was."""
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path))
    before, version = raw_rows(old), versions_of(old)
    engine = make_engine(database)
    with turn(engine) as connection:
        upgrade(connection, version)
        connection.exec_driver_sql("SET LOCAL session_replication_role = replica")
        if version >= WITH_IDENTITY:  # the script has made one up
            connection.exec_driver_sql("DELETE FROM book")
        for name, rows in before.items():
            put(connection, name, rows)
    engine.dispose()
    there = open_book(database)
    here = open_book(str(old))
    assert rows_of(there) == rows_of(here)
    copies = list_copies(database)
    assert [copy.reason for copy in copies] == [f"schema-{version}"] * (version != versions.SCHEMA)
    assert all(raw_rows(copy.path) == before for copy in copies)
    here.close()
    there.close()


def put(connection: Connection, name: str, rows: list[dict[str, Any]]) -> None:
    """Put rows out of SQLite into a table of PostgreSQL."""
    columns = inspect(connection).get_columns(name)
    flags = {one["name"] for one in columns if isinstance(one["type"], Boolean)}
    target = table(name, *(column(one["name"]) for one in columns))
    for row in rows:
        plain = {key: bool(value) if key in flags else value for key, value in row.items()}
        connection.execute(target.insert().values(plain))
    if rows and isinstance(rows[0].get("id"), int):
        connection.exec_driver_sql(
            f"SELECT setval(pg_get_serial_sequence('{name}', 'id'), {rows[-1]['id']})"
        )


def versions_of(path: Path) -> str:
    """The schema version of a file."""
    with closing(sqlite3.connect(path)) as book:
        (version,) = book.execute("SELECT version_num FROM alembic_version").fetchone()
    return str(version)


def test_a_newer_book_is_refused_and_not_touched(old: Path) -> None:
    """A program that is too old for a book says so and leaves every byte as it is."""
    with closing(sqlite3.connect(old)) as book:
        book.execute("UPDATE alembic_version SET version_num = '9999'")
        book.commit()
    before = raw_rows(old)
    with pytest.raises(BookIsNewer, match=r"'9999'.*upgrade the program"):
        open_book(str(old))
    assert raw_rows(old) == before
    assert versions_of(old) == "9999"


def test_an_upgrade_that_fails_leaves_the_old_book(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Schema and journal change in one transaction: the book is of the old version or the new."""
    old = tmp_path / "old.colony"
    load(RELEASED[0], old)

    def fail(*_: object) -> None:
        raise RuntimeError

    monkeypatch.setattr("colony.store.schema.adoption.write_adoption", fail)
    before = raw_rows(old)
    with pytest.raises(RuntimeError):
        open_book(str(old))
    assert raw_rows(old) == before
    assert versions_of(old) == RELEASED[0]


def test_a_database_of_something_else_is_left_alone(tmp_path: Path) -> None:
    """Tables that are not ours are no book, and no book is begun among them."""
    path = tmp_path / "other.db"
    with closing(sqlite3.connect(path)) as other:
        other.execute("CREATE TABLE songs (name TEXT)")
    with pytest.raises(NotABook, match="something else"):
        open_book(str(path), begin=True)
    assert list(raw_rows(path)) == ["songs"]
