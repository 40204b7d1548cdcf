"""Copies of a book that are consistent, whoever is writing in it."""

import datetime as dt
import sqlite3
from contextlib import closing
from pathlib import Path

from colony.refusals.books import BookNotReachable

BACKUP_FOLDER = "backups"


def copy_before(location: str, reason: str) -> Path:
    """Copy the book beside itself before something is done to it, and say where.

    Raises
    ------
    BookNotReachable
        The copy cannot be written; then nothing else is done either.
    """
    book = Path(location)
    moment = dt.datetime.now(dt.UTC).strftime("%Y%m%dT%H%M%S%f")
    copy = book.parent / BACKUP_FOLDER / f"{book.stem}-{moment}-{reason}{book.suffix}"
    try:
        copy.parent.mkdir(exist_ok=True)
        with closing(sqlite3.connect(book)) as source, closing(sqlite3.connect(copy)) as target:
            source.backup(target)
    except (OSError, sqlite3.Error) as failed:
        raise BookNotReachable(str(copy), str(failed)) from failed
    return copy
