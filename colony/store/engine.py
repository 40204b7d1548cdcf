"""How the program speaks to a database: SQLite with its safeties on, or PostgreSQL."""

import re
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from sqlalchemy import URL, Connection, Engine, create_engine, event
from sqlalchemy.exc import ArgumentError, NoSuchModuleError
from sqlalchemy.pool import NullPool

from colony.refusals.books import UnknownDatabase
from colony.store.files import may_write
from colony.store.location import is_url, named

WAIT_SECONDS = 30
"""How long a writer waits for another one to finish."""

_REACH_SECONDS = 10

TURN_KEY = 0x636F6C6F6E79
"""The key of the lock that acts on PostgreSQL take turns with."""

_PRAGMAS = (
    "PRAGMA foreign_keys = ON",
    "PRAGMA journal_mode = WAL",
    # A commit that was reported is on the disk, also when the power fails.
    "PRAGMA synchronous = FULL",
    "PRAGMA trusted_schema = OFF",
)


def make_engine(location: str, *, begins: bool = True) -> Engine:
    """Make an engine for a file path or a URL; nothing is opened yet.

    Parameters
    ----------
    begins
        Whether a file that is not there is made when the engine first connects.

    Raises
    ------
    UnknownDatabase
        The URL is of a database that a book cannot be kept in.
    """
    if is_url(location):
        return _postgres(location)
    path = Path(location)
    if path.exists() and not may_write(path):
        return engine_to_read(path)
    if begins:
        # The whole path: a name such as ':memory:' or 'a?b' is a file name and nothing more.
        url = URL.create("sqlite", database=str(path.absolute()))
    else:
        url = _url_of(path, mode="rw")
    engine = create_engine(url, connect_args={"timeout": WAIT_SECONDS})
    event.listen(engine, "connect", _set_safeties)
    event.listen(engine, "begin", _begin)
    return engine


def writing(engine: Engine, wait_seconds: float | None = None) -> Engine:
    """The same engine, made so that two acts never interleave; a turn is waited for so long."""
    options = {"wait_ms": round(1000 * (WAIT_SECONDS if wait_seconds is None else wait_seconds))}
    if engine.dialect.name == "postgresql":
        return engine.execution_options(**options)
    return engine.execution_options(begin="BEGIN IMMEDIATE", **options)


def looking(engine: Engine) -> Engine:
    """The same engine, made so that all that one session reads is of one moment."""
    if engine.dialect.name == "postgresql":
        return engine.execution_options(isolation_level="REPEATABLE READ")
    return engine


def take_turn(connection: Connection) -> None:
    """Wait until no other act is under way; on SQLite the transaction's beginning has done that.

    On PostgreSQL a lock that lives as long as the transaction puts acts one after the other.
    Each statement after it sees what was committed before, so nothing has to be tried again.
    """
    if connection.dialect.name == "postgresql":
        wait_ms = connection.get_execution_options()["wait_ms"]
        connection.exec_driver_sql(f"SET LOCAL lock_timeout = {wait_ms}")
        connection.exec_driver_sql(f"SELECT pg_advisory_xact_lock({TURN_KEY})")


@contextmanager
def turn(engine: Engine) -> Iterator[Connection]:
    """One transaction that writes, alone; it is committed at the end."""
    with writing(engine).begin() as connection:
        take_turn(connection)
        yield connection


def _postgres(location: str) -> Engine:
    try:
        engine = create_engine(
            location,
            connect_args={
                "connect_timeout": _REACH_SECONDS,
                # Who reads waits as long as who writes, and is told then.
                "options": f"-c lock_timeout={WAIT_SECONDS}s",
            },
            pool_pre_ping=True,  # a screen that was open over night finds the server again
        )
    except (ArgumentError, NoSuchModuleError, ImportError, ValueError) as failed:
        raise UnknownDatabase(named(location)) from failed
    if engine.dialect.name != "postgresql":
        raise UnknownDatabase(named(location))
    return engine


def make_one_file(engine: Engine) -> None:
    """Let a SQLite file need no other beside it, also where it cannot be written to; it is let go of."""
    with engine.connect() as connection:
        connection.connection.driver_connection.execute("PRAGMA journal_mode = DELETE")  # type: ignore[union-attr] # a SQLite connection, in no transaction
    engine.dispose()


def engine_to_read(path: Path) -> Engine:
    """An engine for a file in a place where nothing can be written; each session reads a copy."""
    from colony.store.snapshot import connect_to_snapshot  # noqa: PLC0415 - seldom

    engine = create_engine(
        "sqlite://",
        creator=lambda: connect_to_snapshot(path, WAIT_SECONDS),
        poolclass=NullPool,
    )
    event.listen(engine, "begin", _begin)
    return engine


def has_log(path: Path) -> bool:
    """Whether a write-ahead log beside a file holds acts."""
    log = path.with_name(f"{path.name}-wal")
    return log.exists() and log.stat().st_size > 0


def _url_of(path: Path, **ways: str) -> URL:
    """The file as SQLite writes URIs: a share of Windows has its two slashes in the path."""
    uri = re.sub(r"^file://(?!/)", "file:////", path.absolute().as_uri())
    return URL.create("sqlite", database=uri, query={**ways, "uri": "true"})


def _set_safeties(connection: Any, _record: object) -> None:  # noqa: ANN401 - a DBAPI connection
    connection.isolation_level = None
    for pragma in _PRAGMAS:
        connection.execute(pragma)


def _begin(connection: Connection) -> None:
    options = connection.get_execution_options()
    if "wait_ms" in options:
        connection.exec_driver_sql(f"PRAGMA busy_timeout = {options['wait_ms']}")
    connection.exec_driver_sql(options.get("begin", "BEGIN"))
