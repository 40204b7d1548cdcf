"""Where a book is kept: a file, or the URL of a PostgreSQL database."""

import os
import re
from pathlib import Path

from colony.refusals.books import BookNotReachable, FolderNotThere

BOOK_VARIABLE = "COLONY_BOOK"

FileIdentity = tuple[int, int]
"""Device and number of a file: two files of one name differ in it."""


def book_location(asked: str | None = None) -> str:
    """The book that was asked for, else the one in COLONY_BOOK, else the user's own."""
    return asked or os.environ.get(BOOK_VARIABLE) or str(users_folder() / "book.colony")


def is_url(location: str) -> bool:
    """Tell a database URL from a file path."""
    return "://" in location


def named(location: str) -> str:
    """The location as it may be shown: the password of a URL is left out."""
    return re.sub(r"(://[^:/@]*):[^@]*@", r"\1:***@", location) if is_url(location) else location


def users_folder() -> Path:
    """The folder in which the user's own data is kept."""
    import platformdirs  # noqa: PLC0415 - most calls name their book

    return Path(platformdirs.user_data_dir("colony", appauthor=False))


def make_folder(path: Path) -> None:
    """See that a new book at `path` has a folder.

    Only the user's own data folder is made. Elsewhere a folder that is not there is a disk
    that is not mounted or a slip, and a new book in its place would hide the old one.

    Raises
    ------
    FolderNotThere, BookNotReachable
    """
    folder = path.parent
    if folder.is_dir():
        return
    if folder != users_folder():
        raise FolderNotThere(str(path), str(folder))
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError as failed:
        raise BookNotReachable(str(path), failed.strerror or "no folder") from failed


def identity(location: str) -> FileIdentity | None:
    """Which file a book is now; None for a URL, or where there is no file any more."""
    if is_url(location):
        return None
    try:
        found = Path(location).stat()
    except OSError:
        return None
    return found.st_dev, found.st_ino
