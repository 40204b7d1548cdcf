"""Keep the book safe: back it up, list its backups, put one back."""

import datetime as dt
from dataclasses import dataclass
from pathlib import Path

from colony.refusals.books import BookAlreadyThere
from colony.store.backups.backups import BY_HAND, copy_before, copy_file, list_copies
from colony.store.backups.counters import Behind, raise_counters
from colony.store.backups.identity import identity_at
from colony.store.backups.old_copies import copy_as_it_is
from colony.store.backups.restoring import find_copy, restore
from colony.store.book import Book
from colony.store.engine import turn
from colony.store.failures import in_words
from colony.store.location import is_url


@dataclass(frozen=True)
class BackupLine:
    """One backup of the book; `tested` is when it was last restored as a test."""

    name: str
    made: dt.datetime
    reason: str
    bytes: int
    tested: dt.datetime | None = None


@dataclass(frozen=True)
class BackupState:
    """When the newest backup was made, and when one was last restored as a test."""

    newest: str | None
    made: dt.datetime | None
    tested: dt.datetime | None

    @property
    def sentence(self) -> str:
        """Both, for a person."""
        if self.made is None:
            return "No backup yet: the first act of the next day makes one."
        made = f"Last backup {self.made.astimezone().date()}"
        if self.tested is None:
            return f"{made}; none was restored as a test yet."
        return f"{made}; one was restored as a test on {self.tested.astimezone().date()}."


@dataclass(frozen=True)
class BackedUp:
    """A backup that was made and verified."""

    path: str
    bytes: int


@dataclass(frozen=True)
class Restored:
    """A backup that is the book now, and where the book that was there is kept."""

    restored: str
    kept: str | None
    set_aside: list[str]
    """Logs of a book that was not there any more, or could not be read."""


def back_up(book: Book, *, to: Path | None = None) -> BackedUp:
    """Copy the book while others may write in it, and verify the copy by reading all of it.

    Raises
    ------
    BookAlreadyThere
        Something is at `to`.
    BookNotReachable, DiskFull, CopyDamaged
        There is no good copy; nothing is left of it.
    """
    if to is None:
        path = copy_before(book.engine, book.location, BY_HAND)
        return BackedUp(str(path), path.stat().st_size)
    if to.exists():
        raise BookAlreadyThere(str(to))
    if is_url(book.location):
        copy_as_it_is(book.engine, to)
    else:
        copy_file(book.location, to)
    return BackedUp(str(to), to.stat().st_size)


def recount(book: Book) -> list[Behind]:
    """Let the counters of a PostgreSQL book go on after its rows; those that were behind.

    No row changes, so the journal has nothing to tell.
    """
    with in_words(book.location), turn(book.engine) as connection:
        return raise_counters(connection)


def list_backups(location: str) -> list[BackupLine]:
    """The backups of a book, the newest first."""
    return [
        BackupLine(copy.path.name, copy.made, copy.reason, copy.bytes, _moment(copy.tested))
        for copy in list_copies(location, identity_at(location))
    ]


def backup_state(location: str) -> BackupState:
    """How old the newest backup is, and when one was last known to be good."""
    lines = list_backups(location)
    newest = lines[0] if lines else None
    return BackupState(
        newest.name if newest else None,
        newest.made if newest else None,
        max((line.tested for line in lines if line.tested), default=None),
    )


def _moment(text: str | None) -> dt.datetime | None:
    return dt.datetime.fromisoformat(text) if text else None


def restore_backup(location: str, *, copy: str) -> Restored:
    """Put a backup in the place of the book; what was there is kept beside the backups.

    Raises
    ------
    NoSuchCopy, CopyDamaged, BookIsNewer
        The backup cannot be used; the book was not touched.
    BookBusy, BookNotReachable, DiskFull, NotRestored
    """
    path = find_copy(location, copy)
    was = restore(location, path)
    return Restored(
        str(path), str(was.kept) if was.kept else None, [str(log) for log in was.set_aside]
    )
