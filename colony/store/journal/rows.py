"""Rows as the journal tells them: from JSON to the types of the columns, and what they refer to."""

from collections.abc import Iterator
from datetime import date
from typing import Any

from sqlalchemy import Column, Date, Table

from colony.records import BookIdentity, JournalEntry, JournalPlace, Person, every_table
from colony.refusals.history import JournalOutgrown
from colony.store.journal.steps import Row

OWN = tuple(
    str(record.__tablename__) for record in (JournalEntry, JournalPlace, BookIdentity, Person)
)
"""The tables that tell of the acts, of the book itself and of persons: no act tells of them."""

Place = tuple[str, int | str]
"""A table and a key: one row of the book."""


def table_named(name: str) -> Table:
    """The table of a step; `JournalOutgrown` where this program has none of that name."""
    table = every_table().tables.get(name)
    if table is None:
        raise JournalOutgrown(name)
    return table


def kept_tables() -> list[Table]:
    """Every table that the journal tells of, those that are referred to first."""
    return [table for table in every_table().sorted_tables if table.name not in OWN]


def own_tables() -> list[Table]:
    """The tables that no act tells of, the journal before what refers to it."""
    return [table for table in every_table().sorted_tables if table.name in OWN]


def key_column(table: Table) -> Column[Any]:
    """The one column that is the key of a table."""
    (key,) = table.primary_key
    return key


def typed(table: Table, row: Row) -> Row:
    """A row out of JSON, its days made days again; `JournalOutgrown` where a column is gone."""
    for name in row:
        if name not in table.c:
            raise JournalOutgrown(f"{table.name}.{name}")
    return {name: _typed(table.c[name], value) for name, value in row.items()}


def _typed(column: Column[Any], value: object) -> object:
    if not isinstance(value, str) or not isinstance(column.type, Date):
        return value
    try:
        return date.fromisoformat(value)
    except ValueError as broken:
        raise JournalOutgrown(f"{column}={value}") from broken


def references(table: Table, row: Row) -> Iterator[tuple[str, Place]]:
    """Which rows a row refers to, and by which column."""
    for column in table.c:
        for key in column.foreign_keys:
            if row.get(column.name) is not None:
                yield column.name, (key.column.table.name, row[column.name])
