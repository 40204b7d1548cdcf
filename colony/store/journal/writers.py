"""Who writes: as they say themselves, and as the database knows them."""

import getpass
import os

from sqlalchemy import Connection

from colony.notation.tags import printable

WHO_VARIABLE = "COLONY_WHO"

NOBODY, LONGEST_NAME = "somebody", 80


def acting_person() -> str:
    """Whose acts those of this process are, as the journal names them: one line, and short."""
    try:
        said = os.environ.get(WHO_VARIABLE) or getpass.getuser()
    except (KeyError, OSError):  # a system that has no name for its user
        said = NOBODY
    return printable(said)[:LONGEST_NAME].strip() or NOBODY


def database_user(connection: Connection) -> str:
    """Who writes as the database itself knows it; a file is written by a user of the computer."""
    if connection.dialect.name == "postgresql":
        return str(connection.exec_driver_sql("SELECT session_user").scalar_one())
    try:
        return getpass.getuser()
    except (KeyError, OSError):
        return NOBODY
