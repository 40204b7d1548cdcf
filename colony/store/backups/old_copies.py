"""Copy a PostgreSQL book of any schema version into a file, without the tables of this program."""

import datetime as dt
from contextlib import suppress
from pathlib import Path
from typing import Any

from sqlalchemy import Connection, Engine, TableClause, column, inspect, select, table
from sqlalchemy.exc import DatabaseError

from colony.refusals.books import BookNotReachable, CopyDiffers
from colony.store.backups.naming import name_copy, refuse_folder_not_there
from colony.store.backups.verification import verify
from colony.store.engine import looking, make_engine, make_one_file, turn
from colony.store.failures import refusal_of
from colony.store.schema.stored_version import version_of

_VERSION = "alembic_version"


def copy_as_it_is(engine: Engine, path: Path) -> None:
    """Write every row of the book behind `engine` into a new file of the same schema version.

    Raises
    ------
    BookNotReachable, DiskFull, CopyDiffers, CopyDamaged
    """
    unfinished = path.with_name(f"{path.name}.part")
    refuse_folder_not_there(path)
    try:
        unfinished.unlink(missing_ok=True)  # of a copy that was killed
        _copy(engine, unfinished)
        verify(unfinished)
        name_copy(unfinished, path, like=None)
    except OSError as failed:
        raise BookNotReachable(str(path), failed.strerror or "cannot be written") from failed
    except DatabaseError as failed:
        raise refusal_of(failed.orig, str(path)) from failed
    finally:
        with suppress(OSError):
            unfinished.unlink(missing_ok=True)


def _copy(engine: Engine, path: Path) -> None:
    from colony.store.schema import upgrade  # noqa: PLC0415 - loads alembic

    target = make_engine(str(path))
    with looking(engine).connect() as source:
        version = version_of(source, str(path))
        with turn(target) as copy:
            upgrade.upgrade(copy, version or "head")
            copy.exec_driver_sql("PRAGMA defer_foreign_keys = ON")
            for each in _tables(source):
                _copy_table(each, source, copy, path)
    make_one_file(target)


def _copy_table(each: TableClause, source: Connection, copy: Connection, path: Path) -> None:
    rows = [_plain(row) for row in source.execute(select(each)).mappings()]
    if each.name == "book":
        copy.execute(each.delete())  # the identity that the scripts have made up
    if rows:
        copy.execute(each.insert(), rows)
    there = [dict(row) for row in copy.execute(select(each)).mappings()]
    if sorted(map(repr, there)) != sorted(map(repr, rows)):
        raise CopyDiffers(str(path), f"table {each.name}")


def _tables(source: Connection) -> list[TableClause]:
    inspector = inspect(source)
    return [
        table(name, *(column(facts["name"]) for facts in inspector.get_columns(name)))
        for name in inspector.get_table_names()
        if name != _VERSION
    ]


def _plain(row: Any) -> dict[str, Any]:  # noqa: ANN401 - a mapping of whatever the columns hold
    """A row as SQLite keeps it: days as text, yes and no as 1 and 0."""
    return {
        name: value.isoformat()
        if isinstance(value, dt.date)
        else int(value)
        if isinstance(value, bool)
        else value
        for name, value in row.items()
    }
