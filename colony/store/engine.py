"""How the program speaks to a database: SQLite with its safeties on, or PostgreSQL."""

from typing import Any

from sqlalchemy import Connection, Engine, create_engine, event
from sqlmodel import Session

from colony.store.location import is_url

WAIT_SECONDS = 30
"""How long a writer waits for another one to finish."""

_ONE_ACT_AT_A_TIME = 0x636F6C6F6E79
"""The key of the lock that acts on PostgreSQL take turns with."""

_PRAGMAS = (
    "PRAGMA foreign_keys = ON",
    "PRAGMA journal_mode = WAL",
    # A commit that was reported is on the disk, also when the power fails.
    "PRAGMA synchronous = FULL",
    "PRAGMA trusted_schema = OFF",
)


def make_engine(location: str) -> Engine:
    """Make an engine for a file path or a URL; nothing is opened yet."""
    if is_url(location):
        return create_engine(location)
    engine = create_engine(f"sqlite:///{location}", connect_args={"timeout": WAIT_SECONDS})
    event.listen(engine, "connect", _set_safeties)
    event.listen(engine, "begin", _begin)
    return engine


def writing(engine: Engine) -> Engine:
    """The same engine, made so that two acts never interleave."""
    return engine.execution_options(begin="BEGIN IMMEDIATE")


def take_turn(session: Session) -> None:
    """Wait until no other act is under way; on SQLite the transaction's beginning has done that.

    On PostgreSQL a lock that lives as long as the transaction puts acts one after the other.
    Each statement after it sees what was committed before, so nothing has to be tried again.
    """
    if session.get_bind().dialect.name == "postgresql":
        connection = session.connection()
        connection.exec_driver_sql(f"SET LOCAL lock_timeout = '{WAIT_SECONDS}s'")
        connection.exec_driver_sql(f"SELECT pg_advisory_xact_lock({_ONE_ACT_AT_A_TIME})")


def _set_safeties(connection: Any, _record: object) -> None:  # noqa: ANN401 - a DBAPI connection
    connection.isolation_level = None
    for pragma in _PRAGMAS:
        connection.execute(pragma)


def _begin(connection: Connection) -> None:
    connection.exec_driver_sql(connection.get_execution_options().get("begin", "BEGIN"))
