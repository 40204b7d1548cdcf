"""Which schema version a database has, read without the tables of this program."""

from sqlalchemy import Connection, inspect

from colony.refusals.books import NotABook
from colony.store.location import named


def version_of(connection: Connection, location: str) -> str | None:
    """The schema version of a book; None where the database is empty."""
    tables = inspect(connection).get_table_names()
    if "alembic_version" in tables:
        version = connection.exec_driver_sql("SELECT version_num FROM alembic_version").scalar()
        return str(version) if version else None
    if tables:
        raise NotABook(named(location), "it is a database of something else")
    return None
