"""How the program speaks to a database: SQLite with its safeties on, or PostgreSQL."""

from typing import Any

from sqlalchemy import Connection, Engine, create_engine, event

from colony.store.location import is_url

WAIT_SECONDS = 30
"""How long a writer waits for another one to finish."""

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
    if engine.dialect.name == "postgresql":
        return engine.execution_options(isolation_level="SERIALIZABLE")
    return engine.execution_options(begin="BEGIN IMMEDIATE")


def _set_safeties(connection: Any, _record: object) -> None:  # noqa: ANN401 - a DBAPI connection
    connection.isolation_level = None
    for pragma in _PRAGMAS:
        connection.execute(pragma)


def _begin(connection: Connection) -> None:
    connection.exec_driver_sql(connection.get_execution_options().get("begin", "BEGIN"))
