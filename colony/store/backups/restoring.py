"""Put a backup in the place of a book, and keep what was there.

What is kept and what is overwritten are one moment: no act of somebody else comes between.
"""

import shutil
import sqlite3
from collections.abc import Iterator
from contextlib import closing, contextmanager, suppress
from dataclasses import dataclass
from pathlib import Path

from sqlmodel import Session

from colony.refusals.books import (
    BackupOfAnotherBook,
    BookBusy,
    BookNotReachable,
    NoSuchCopy,
    NotABook,
    NotRestored,
)
from colony.store.backups.backups import (
    Copy,
    backup_folder,
    copy_before,
    copy_file,
    list_copies,
    new_path,
    newest_of,
)
from colony.store.backups.identity import identity_at, take_identity
from colony.store.backups.manifest import book_in
from colony.store.backups.transfer import book_rows, differing_row, replace_rows
from colony.store.backups.trial import restored_aside
from colony.store.backups.verification import begins_as_database, difference, only_read
from colony.store.book import Book, open_book
from colony.store.engine import WAIT_SECONDS, turn
from colony.store.failures import in_words, refusal_of
from colony.store.files import settle
from colony.store.journal.journal import Recorder, tell
from colony.store.journal.writing import write_entry
from colony.store.location import is_url, make_folder, named

NEWEST, RESTORE_ACT = "newest", "book restore"
_REASON = "before-restore"
_BESIDE = ("", "-wal", "-shm", "-journal")
_OTHERS_WRITE = (sqlite3.SQLITE_BUSY, sqlite3.SQLITE_LOCKED)


@dataclass(frozen=True)
class Replaced:
    """What was in the place of a book, and where it is now."""

    kept: Path | None = None
    """The book that was there."""
    set_aside: tuple[Path, ...] = ()
    """Logs of a book, which would have been read into the restored one."""


def find_copy(location: str, name: str) -> Path:
    """The backup of a path or name, or the newest; `NoSuchCopy` where there is none.

    A path that is there goes before a name. What a restore put aside is never the newest: it
    may be what was broken.
    """
    copies = [copy for copy in list_copies(location, identity_at(location)) if not _is_aside(copy)]
    if name == NEWEST and (newest := newest_of(copies)) is not None:
        return newest.path
    for path in (Path(name), backup_folder(location) / Path(name).name):
        if path.is_file():
            return path
    raise NoSuchCopy(name, str(backup_folder(location)))


def _is_aside(copy: Copy) -> bool:
    return copy.reason == _REASON


def restore(location: str, copy: Path) -> Replaced:
    """Put a verified backup in the place of the book; return where what was there is kept.

    Other programs may have the book open: they go on in the restored one. Each act of theirs
    is either in what is kept or in the restored book.

    Raises
    ------
    CopyDamaged, BookIsNewer, BackupOfAnotherBook
        The backup cannot be used; the book was not changed.
    BookBusy, BookNotReachable, DiskFull
        What is there cannot be kept, or not be replaced.
    NotRestored
        Read again, the book is not what the backup holds.
    """
    there = _refuse_other_book(location, copy)
    with _prepared(copy, there) as prepared:
        if is_url(location):
            return _restore_url(location, prepared)
        replaced = _restore_file(location, prepared)
        if wrong := difference(Path(location), prepared):
            raise NotRestored(location, wrong)
        return replaced


def _refuse_other_book(location: str, copy: Path) -> str | None:
    """Refuse a backup of another book than the one in place; the id of that one, if it has one."""
    there = identity_at(location)
    if there and book_in(copy) not in (None, there):
        raise BackupOfAnotherBook(str(copy), named(location))
    return there


@contextmanager
def _prepared(copy: Path, there: str | None) -> Iterator[Path]:
    """A backup as it is to be put in place: of this schema, its journal telling of the restore.

    One of an older program has no identity of its own: it goes on as the book that was there.
    """
    with restored_aside(copy) as path:
        with closing(open_book(str(path))) as book:
            if there and book_in(copy) is None:
                take_identity(book.engine, there)
            _write_down(book, copy)
        with closing(sqlite3.connect(path)) as alone:
            alone.execute("PRAGMA journal_mode = DELETE")
        yield path


def _write_down(book: Book, copy: Path) -> None:
    """Say in the journal of the restored book where it came from."""
    with in_words(book.location), turn(book.engine) as connection, Session(connection) as session:
        recorder = Recorder(session)
        tell(session, f"restored from {copy.name}")
        write_entry(session, RESTORE_ACT, recorder, always=True)
        session.commit()


def _restore_file(location: str, prepared: Path) -> Replaced:
    make_folder(Path(location))
    kept = new_path(location, _REASON)
    if begins_as_database(Path(location)):
        # What is too damaged to be copied page by page, or to be written in, is put aside.
        with suppress(NotABook):
            _overwrite(location, prepared, kept)
            return Replaced(kept)
    there, *logs = _set_aside(location, kept)
    _put(prepared, Path(location))
    return Replaced(there, tuple(log for log in logs if log))


def _overwrite(location: str, prepared: Path, kept: Path) -> None:
    """Keep the book and write the backup over its pages, as one transaction that others wait for."""

    def keep_first(status: int, _remaining: int, _total: int) -> None:
        """After its first page nobody else can write; until its last, all read what was there."""
        if status in _OTHERS_WRITE:
            raise BookBusy(location)
        if not kept.exists():
            kept.parent.mkdir(exist_ok=True)
            copy_file(location, kept, verified=False)

    try:
        with (
            closing(only_read(prepared)) as source,
            closing(sqlite3.connect(location, timeout=WAIT_SECONDS)) as book,
        ):
            book.execute("PRAGMA journal_mode = WAL")  # in which a book can be read meanwhile
            source.backup(book, pages=1, progress=keep_first)
    except sqlite3.Error as failed:
        raise refusal_of(failed, location) from failed


def _set_aside(location: str, kept: Path) -> list[Path | None]:
    """Keep the files as they are; a log would be read into whatever file has the book's name."""
    try:
        kept.parent.mkdir(exist_ok=True)
        return [_moved(Path(location + end), Path(f"{kept}{end}")) for end in _BESIDE]
    except OSError as failed:
        raise BookNotReachable(location, failed.strerror or "cannot be kept") from failed


def _moved(path: Path, to: Path) -> Path | None:
    try:
        return path.replace(to)
    except FileNotFoundError:
        return None


def _put(prepared: Path, book: Path) -> None:
    """Put a copy where no book is; it has the name of the book only when it is complete."""
    unfinished = book.with_name(f"{book.name}.part")
    try:
        shutil.copyfile(prepared, unfinished)
        settle(unfinished, book)
    except OSError as failed:
        raise BookNotReachable(str(book), failed.strerror or "cannot be written") from failed
    finally:
        unfinished.unlink(missing_ok=True)


def _restore_url(location: str, prepared: Path) -> Replaced:
    """Keep the rows of the database and put those of the backup in their place, in one transaction."""
    with closing(open_book(str(prepared))) as backup:
        rows, own = book_rows(backup)
    with (
        closing(open_book(location, begin=True)) as there,
        in_words(location),
        turn(there.engine) as connection,
    ):
        # Acts wait for this turn to end, so the copy is of the moment of the replacement.
        kept = copy_before(there.engine, location, _REASON)
        replace_rows(connection, rows, own)
        if wrong := differing_row(connection, rows, own):
            raise NotRestored(named(location), wrong)
    return Replaced(kept)
