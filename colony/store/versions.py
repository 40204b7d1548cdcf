"""Schema versions: which one a book has, and bringing it up to the program's own.

A book that is up to date is told by one query; alembic is loaded only when there is work.
"""

from sqlalchemy import Engine, inspect

from colony.refusals.books import BookIsNewer, NotABook
from colony.store.backups import copy_before
from colony.store.location import is_url

SCHEMA = "0002"
"""The newest schema that this program knows; a test holds it to the scripts in `schema/versions`."""


def bring_up_to_date(engine: Engine, location: str) -> None:
    """Apply what is missing, after a backup copy; a new book gets the whole schema and its species."""
    found = _version_of(engine, location)
    if found == SCHEMA:
        return
    from colony.store.schema import upgrade  # noqa: PLC0415 - loads alembic

    if found is not None:
        if found not in upgrade.known_versions():
            raise BookIsNewer(location, found)
        if not is_url(location):
            copy_before(location, f"schema-{found}")
    upgrade.upgrade(engine)
    if found is None:
        from colony.store.first_species import write_first_species  # noqa: PLC0415 - once a book

        write_first_species(engine)


def _version_of(engine: Engine, location: str) -> str | None:
    with engine.connect() as connection:
        tables = inspect(connection).get_table_names()
        if "alembic_version" in tables:
            version = connection.exec_driver_sql("SELECT version_num FROM alembic_version").scalar()
            return str(version) if version else None
        if tables:
            raise NotABook(location, "it is a database of something else")
    return None
