"""Prove that a file is a whole book, and one that a backup was put into."""

import sqlite3
from contextlib import closing
from pathlib import Path

from colony.refusals.books import BookNotReachable, CopyDamaged

_VERSION = "SELECT version_num FROM alembic_version"
_NEWEST = "SELECT max(id) FROM journal"
_ACTS = "SELECT id, at, who, act, summary FROM journal WHERE id <= ? ORDER BY id"
_TABLES = "SELECT name FROM sqlite_schema WHERE type = 'table' ORDER BY name"


_MAGIC = b"SQLite format 3\0"
"""The first bytes of every file of SQLite ("Database File Format", sqlite.org, 1.3.1)."""


def begins_as_database(path: Path) -> bool:
    """Whether a file begins as a database; opening another one would take away the log beside it.

    Raises
    ------
    BookNotReachable
        It is there and cannot be read.
    """
    try:
        with path.open("rb") as file:
            return file.read(len(_MAGIC)) == _MAGIC
    except FileNotFoundError:
        return False
    except OSError as failed:
        raise BookNotReachable(str(path), failed.strerror or "cannot be read") from failed


def fault(file: sqlite3.Connection) -> str | None:
    """What is broken in a file: a page, an index, a reference; None where nothing is."""
    (result,) = file.execute("PRAGMA integrity_check(1)").fetchone()
    if result != "ok":
        return str(result)
    if file.execute("PRAGMA foreign_key_check").fetchone():
        return "a row refers to one that is not there"
    return None


def verify(path: Path) -> str:
    """Open a copy, read all of it, and return its schema version.

    Raises
    ------
    CopyDamaged
        It is no book, or a page, an index or a reference of it is broken.
    """
    try:
        with closing(only_read(path)) as copy:
            if broken := fault(copy):
                raise CopyDamaged(str(path), broken)
            copy.execute("SELECT count(*) FROM journal").fetchone()
            (version,) = copy.execute("SELECT version_num FROM alembic_version").fetchone()
    except (sqlite3.Error, TypeError) as failed:
        raise CopyDamaged(str(path), str(failed)) from failed
    return str(version)


def only_read(path: Path) -> sqlite3.Connection:
    """Open a file, with the log that may be beside it, so that it cannot be changed."""
    return sqlite3.connect(f"{path.absolute().as_uri()}?mode=ro", uri=True)


def difference(book: Path, backup: Path) -> str | None:
    """What a book that was restored has otherwise than its backup; None where nothing is.

    Somebody may have written in the book since, so only acts of the backup are looked for;
    where nobody has, the rows of each table are counted too.
    """
    try:
        with closing(sqlite3.connect(book)) as there, closing(sqlite3.connect(backup)) as wanted:
            there.execute("BEGIN")
            return fault(there) or _what_differs(there, wanted)
    except sqlite3.Error as failed:
        return str(failed)


def _what_differs(book: sqlite3.Connection, backup: sqlite3.Connection) -> str | None:
    (newest,) = backup.execute(_NEWEST).fetchone()
    if _rows(book, _VERSION) != _rows(backup, _VERSION):
        return "it is of another schema"
    if _rows(book, _ACTS, newest) != _rows(backup, _ACTS, newest):
        return "its journal tells of other acts"
    if _rows(book, _NEWEST) == [(newest,)] and _counts(book) != _counts(backup):
        return "a table has another number of rows"
    return None


def _counts(file: sqlite3.Connection) -> list[tuple[str, int]]:
    names = [name for (name,) in file.execute(_TABLES)]
    return [
        (name, file.execute(f'SELECT count(*) FROM "{name}"').fetchone()[0])  # noqa: S608 - names of our own tables
        for name in names
    ]


def _rows(file: sqlite3.Connection, query: str, *facts: int) -> list[tuple[object, ...]]:
    return file.execute(query, facts).fetchall()
