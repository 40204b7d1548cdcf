"""Make a book out of rows: a copy in another database, or what the journal tells."""

import hashlib
import json
from collections.abc import Mapping, Sequence
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path

from sqlalchemy import Connection, Engine, Table, inspect, select

from colony.refusals.books import BookAlreadyThere, BookNotReachable, CopyDiffers
from colony.store.backups.counters import JOURNAL, raise_counters
from colony.store.book import Book
from colony.store.engine import make_engine, make_one_file, turn
from colony.store.failures import in_words
from colony.store.files import settle
from colony.store.journal.entries import read_entries
from colony.store.journal.replay import Rows, by_table, differences, kept_rows, recorded_rows
from colony.store.journal.rows import kept_tables, own_tables
from colony.store.journal.steps import Row
from colony.store.location import is_url, make_folder, named

_AT_ONCE = 1000

Own = Mapping[Table, Sequence[Row]]
"""The rows of the tables that no act tells of."""


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
        rows, own = kept_rows(session.connection()), _own(session.connection())
    return _write(location, rows, own)


def rebuild_book(source: Book, location: str) -> Written:
    """Write the book that the journal of `source` tells of; no table of records is read.

    Raises
    ------
    BookAlreadyThere, CopyDiffers
    """
    with source.reading() as session:
        rows, own = recorded_rows(read_entries(session)), _own(session.connection())
    return _write(location, rows, own)


def replace_rows(connection: Connection, rows: Rows, own: Own) -> None:
    """Put rows in place of all that a PostgreSQL book holds, in the transaction of `connection`."""
    names = ", ".join(f'"{table.name}"' for table in (*kept_tables(), *own))
    connection.exec_driver_sql(f"TRUNCATE {names}")
    _insert(connection, rows, own)


def differing_row(connection: Connection, rows: Rows, own: Own) -> str | None:
    """Read back what was written: the first row that came out otherwise, in words, or None."""
    wrong = [difference.place for difference in differences(rows, kept_rows(connection))]
    if wrong:
        table, key = wrong[0]
        return f"row {key} of {table}"
    there = _own(connection)
    return next((f"a row of {table.name}" for table in own if there[table] != own[table]), None)


def book_rows(book: Book) -> tuple[Rows, Own]:
    """Every row of a book, and those of its journal and of itself, as of one moment."""
    with book.reading() as session:
        return kept_rows(session.connection()), _own(session.connection())


def digest(rows: Rows, own: Own) -> str:
    """One number for all that a book holds, the same in every database."""
    hashed = hashlib.sha256()
    for table, ordered in (*by_table(rows), *own.items()):
        for row in ordered:
            hashed.update(json.dumps([table.name, row], sort_keys=True, default=str).encode())
    return hashed.hexdigest()


def _write(location: str, rows: Rows, own: Own) -> Written:
    from colony.store.schema import upgrade  # noqa: PLC0415 - loads alembic

    _refuse_taken(location)
    aside = location if is_url(location) else f"{location}.part"
    _take_away(aside)  # what a copy that was killed left
    engine = make_engine(aside)
    try:
        with in_words(location), turn(engine) as connection:
            _refuse_taken_database(connection, location)
            upgrade.upgrade(connection)
            for table in reversed(own_tables()):
                connection.execute(table.delete())  # the identity that the scripts have made up
            _insert(connection, rows, own)
            _refuse_differing(connection, location, rows, own)
        _put_in_place(engine, aside, location)
    except BaseException:
        engine.dispose()
        _take_away(aside)
        raise
    return Written(named(location), len(rows), len(own[JOURNAL]), digest(rows, own))


def _put_in_place(engine: Engine, aside: str, location: str) -> None:
    """Give a finished book its name: what has it is a whole one, also when this is killed."""
    if is_url(location):
        engine.dispose()
        return
    try:
        make_one_file(engine)
        settle(Path(aside), Path(location))
    except OSError as failed:
        raise BookNotReachable(location, failed.strerror or "cannot be written") from failed


def _insert(connection: Connection, rows: Rows, own: Own) -> None:
    for table, ordered in (*by_table(rows), *own.items()):
        for start in range(0, len(ordered), _AT_ONCE):
            connection.execute(table.insert(), ordered[start : start + _AT_ONCE])
    raise_counters(connection)


def _refuse_differing(connection: Connection, location: str, rows: Rows, own: Own) -> None:
    if wrong := differing_row(connection, rows, own):
        raise CopyDiffers(named(location), wrong)


def _own(connection: Connection) -> dict[Table, list[Row]]:
    """The rows of the journal, of what it affected and of the book itself, each in one order."""
    return {
        table: sorted(
            (dict(row) for row in connection.execute(select(table)).mappings()),
            key=lambda row, table=table: [row[column.name] for column in table.primary_key],  # type: ignore[misc] # bound to each table
        )
        for table in own_tables()
    }


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
