"""Schema versions: which one a book has, and bringing it up to the program's own.

One query says whether a book is up to date; alembic is loaded only when there is work.
"""

from pathlib import Path

from sqlalchemy import Connection, Engine
from sqlmodel import Session

from colony.refusals.books import BookIsNewer
from colony.store.engine import turn
from colony.store.location import named
from colony.store.schema.stored_version import version_of

SCHEMA = max(script.name[:4] for script in Path(__file__).with_name("versions").glob("[0-9]*.py"))
"""The newest schema that this program knows: its scripts are numbered in their order."""


def bring_up_to_date(engine: Engine, location: str) -> None:
    """Apply what is missing, after a backup copy; a new book gets the whole schema and its species.

    All of it is one transaction: a book is of its old version, or wholly of the new one.
    """
    with engine.connect() as connection:
        found = version_of(connection, location)
    if found == SCHEMA:
        return
    from colony.store.schema import upgrade  # noqa: PLC0415 - loads alembic

    if found is not None:
        if found not in upgrade.known_versions():
            raise BookIsNewer(named(location), found)
        from colony.store.backups.backups import copy_before  # noqa: PLC0415 - once a version

        copy_before(engine, location, f"schema-{found}")
    with turn(engine) as connection:
        # Another process may have brought the book up to date a moment ago.
        if version_of(connection, location) == found:
            upgrade.upgrade(connection)
            _write_first_act(connection, found)


def _write_first_act(connection: Connection, found: str | None) -> None:
    """The journal tells of what the new schema brought, so that it goes on telling all."""
    from colony.store.schema.adoption import write_adoption  # noqa: PLC0415 - once a version
    from colony.store.schema.first_species import write_first_species  # noqa: PLC0415 - once a book

    with Session(connection) as session:
        if found is None:
            write_first_species(session)
        else:
            write_adoption(session, found, SCHEMA)
        session.commit()
