"""Where a book is kept: a file, or the URL of a PostgreSQL database."""

import os
import re
from collections.abc import Iterator
from pathlib import Path
from urllib.parse import unquote

from colony.refusals.books import BookNotReachable, FolderNotThere, UnknownDatabase

BOOK_VARIABLE = "COLONY_BOOK"

FileIdentity = tuple[int, int]
"""Device and number of a file: two files of one name differ in it."""


def book_location(asked: str | None = None) -> str:
    """The book that was asked for, else the one in COLONY_BOOK, else the user's own."""
    found = asked or os.environ.get(BOOK_VARIABLE) or str(users_folder() / "book.colony")
    if is_conninfo(found):
        raise UnknownDatabase(named(found))
    return found


def is_url(location: str) -> bool:
    """Tell a database URL from a file path."""
    return "://" in location


_USERINFO = re.compile(r"(?P<before>://[^:/?#]*):.*@")
"""A user and what follows; a password that is not encoded may hold any sign, also an @."""

_NAMED_SECRET = re.compile(
    r"(?P<before>\b(?:password|passwd|pwd|sslpassword|passfile)\s*=\s*)(?:'[^']*'|[^&\s]*)",
    re.IGNORECASE,
)
_CONNINFO = re.compile(r"\b(host|hostaddr|dbname|user|password|service)\s*=", re.IGNORECASE)


def is_conninfo(location: str) -> bool:
    """Whether it is a connection string of libpq, ``host=... dbname=...``, and no path."""
    return "://" not in location and len(_CONNINFO.findall(location)) > 1


def named(location: str) -> str:
    """The location as it may be shown: every password in it is left out."""
    if not (is_url(location) or is_conninfo(location)):
        return location
    shown = _USERINFO.sub(r"\g<before>:***@", location)
    return _NAMED_SECRET.sub(r"\g<before>***", shown)


def without_secrets(text: str, location: str) -> str:
    """A text of a driver, in which no piece of a password of the location stands."""
    pieces = [match.group().removeprefix(match["before"]) for match in _secrets(location)]
    for piece in sorted({p for whole in pieces for p in _pieces(whole)}, key=len, reverse=True):
        text = text.replace(piece, "***")
    return text


def _secrets(location: str) -> Iterator[re.Match[str]]:
    yield from _USERINFO.finditer(location)
    yield from _NAMED_SECRET.finditer(location)


def _pieces(secret: str) -> Iterator[str]:
    """A password and what a parser that split it may have taken it for."""
    plain = secret.strip(":@'")
    yield from (piece for piece in (plain, unquote(plain), *re.split(r"[@:/]", plain)) if piece)


def server_and_database(location: str) -> str:
    """What a URL names, for the name of a file: no part of a password is ever in it."""
    rest = location.partition("://")[2].partition("?")[0]
    return rest.rpartition("@")[2] or "book"


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
