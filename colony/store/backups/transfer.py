"""Make a book out of rows: a copy in another database, or what the journal tells."""

import hashlib
import json
from collections.abc import Sequence
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path

from sqlalchemy import Connection, inspect, select

from colony.refusals.books import BookAlreadyThere, CopyDiffers
from colony.store.backups.counters import JOURNAL, raise_counters
from colony.store.book import Book
from colony.store.engine import make_engine, turn
from colony.store.failures import in_words
from colony.store.journal.entries import read_entries
from colony.store.journal.journal import Row
from colony.store.journal.replay import Rows, by_table, differences, kept_rows, recorded_rows
from colony.store.journal.rows import kept_tables
from colony.store.location import is_url, make_folder, named

_AT_ONCE = 1000


@dataclass(frozen=True)
class Written:
    """A book that was made and compared row by row with what it was made from."""

    location: str
    rows: int
    acts: int
    digest: str
    """SHA-256 over every row: two books with one digest hold the same."""


def copy_book(source: Book, location: str) -> Written:
    """Write a book, its journal too, into a place that is free, and prove that both are equal.

    Raises
    ------
    BookAlreadyThere
        Something is at the place.
    CopyDiffers
        A row came out otherwise; then the copy is taken away again.
    """
    with source.reading() as session:
        rows, journal = kept_rows(session.connection()), _journal(session.connection())
    return _write(location, rows, journal)


def rebuild_book(source: Book, location: str) -> Written:
    """Write the book that the journal of `source` tells of; no other table of it is read.

    Raises
    ------
    BookAlreadyThere, CopyDiffers
    """
    with source.reading() as session:
        rows, journal = recorded_rows(read_entries(session)), _journal(session.connection())
    return _write(location, rows, journal)


def replace_rows(connection: Connection, rows: Rows, journal: Sequence[Row]) -> None:
    """Put rows in place of all that a PostgreSQL book holds, in the transaction of `connection`."""
    names = ", ".join(f'"{table.name}"' for table in (*kept_tables(), JOURNAL))
    connection.exec_driver_sql(f"TRUNCATE {names}")
    _insert(connection, rows, journal)


def differing_row(connection: Connection, rows: Rows, journal: Sequence[Row]) -> str | None:
    """Read back what was written: the first row that came out otherwise, in words, or None."""
    wrong = [difference.place for difference in differences(rows, kept_rows(connection))]
    if not wrong and _journal(connection) == journal:
        return None
    table, key = wrong[0] if wrong else (JOURNAL.name, "?")
    return f"row {key} of {table}"


def book_rows(book: Book) -> tuple[Rows, list[Row]]:
    """Every row and every journal entry of a book, as of one moment."""
    with book.reading() as session:
        return kept_rows(session.connection()), _journal(session.connection())


def digest(rows: Rows, journal: Sequence[Row]) -> str:
    """One number for all that a book holds, the same in every database."""
    hashed = hashlib.sha256()
    for table, ordered in (*by_table(rows), (JOURNAL, journal)):
        for row in ordered:
            hashed.update(json.dumps([table.name, row], sort_keys=True, default=str).encode())
    return hashed.hexdigest()


def _write(location: str, rows: Rows, journal: Sequence[Row]) -> Written:
    from colony.store.schema import upgrade  # noqa: PLC0415 - loads alembic

    _refuse_taken(location)
    engine = make_engine(location)
    try:
        with in_words(location), turn(engine) as connection:
            _refuse_taken_database(connection, location)
            upgrade.upgrade(connection)
            _insert(connection, rows, journal)
            _refuse_differing(connection, location, rows, journal)
    except BaseException:
        engine.dispose()
        _take_away(location)
        raise
    engine.dispose()
    return Written(named(location), len(rows), len(journal), digest(rows, journal))


def _insert(connection: Connection, rows: Rows, journal: Sequence[Row]) -> None:
    for table, ordered in (*by_table(rows), (JOURNAL, journal)):
        for start in range(0, len(ordered), _AT_ONCE):
            connection.execute(table.insert(), ordered[start : start + _AT_ONCE])
    raise_counters(connection)


def _refuse_differing(
    connection: Connection, location: str, rows: Rows, journal: Sequence[Row]
) -> None:
    if wrong := differing_row(connection, rows, journal):
        raise CopyDiffers(named(location), wrong)


def _journal(connection: Connection) -> list[Row]:
    query = select(JOURNAL).order_by(JOURNAL.c.id)
    return [dict(row) for row in connection.execute(query).mappings()]


def _refuse_taken(location: str) -> None:
    if is_url(location):
        return
    if Path(location).exists():
        raise BookAlreadyThere(named(location))
    make_folder(Path(location))


def _refuse_taken_database(connection: Connection, location: str) -> None:
    if inspect(connection).get_table_names():
        raise BookAlreadyThere(named(location))


def _take_away(location: str) -> None:
    """A copy that was not finished is none; it was this call that began the file."""
    if not is_url(location):
        for ending in ("", "-wal", "-shm", "-journal"):
            with suppress(OSError):
                Path(location + ending).unlink()
