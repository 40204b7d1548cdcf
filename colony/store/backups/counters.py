"""The counters that number new rows on PostgreSQL: which are behind their rows, and raising them.

A counter is never lowered: what is done to one is not rolled back with the transaction, so a
lowered one would give the numbers of rows that are still there.
"""

from collections.abc import Iterator
from dataclasses import dataclass

from sqlalchemy import Connection, Table, text

from colony.records import JournalEntry
from colony.store.journal.rows import kept_tables, key_column

JOURNAL: Table = JournalEntry.__table__  # type: ignore[attr-defined] # sqlmodel adds it

_LAST_GIVEN = text(
    """
    SELECT CASE WHEN has_sequence_privilege(name, 'SELECT, USAGE')
                THEN coalesce(pg_sequence_last_value(name::regclass), 0) END
    FROM pg_get_serial_sequence(:named, :key) AS name
    """
)
"""The last number given, 0 before the first; null for who may not see it, or where nothing counts."""

_RAISE = text("SELECT setval(pg_get_serial_sequence(:named, :key), :newest)")


@dataclass(frozen=True)
class Behind:
    """A counter that would give a number that a row has."""

    table: str
    last: int
    """The last number that it gave, 0 before the first."""
    newest: int
    """The greatest number that a row has."""


def counters_behind(connection: Connection) -> list[Behind]:
    """The counters that are behind their rows; none on SQLite, which looks at the rows itself."""
    return [behind for _, behind in _behind(connection)]


def raise_counters(connection: Connection) -> list[Behind]:
    """Let each counter that is behind go on after its newest row; what they were is returned."""
    raised = []
    for names, behind in _behind(connection):
        connection.execute(_RAISE, names | {"newest": behind.newest})
        raised.append(behind)
    return raised


def _behind(connection: Connection) -> Iterator[tuple[dict[str, str], Behind]]:
    if connection.dialect.name != "postgresql":
        return
    for table in (*kept_tables(), JOURNAL):
        key = key_column(table)
        names = {"named": f'"{table.name}"', "key": key.name}
        last = connection.scalar(_LAST_GIVEN, names)
        if last is None:
            continue
        newest = connection.scalar(text(f'SELECT max("{key.name}") FROM "{table.name}"'))  # noqa: S608 - names of our own tables
        if newest is not None and newest > last:
            yield names, Behind(table.name, last, newest)
