"""Put a backup in the place of a book, and keep what was there."""

import shutil
import sqlite3
import time
from collections.abc import Iterator
from contextlib import closing, contextmanager, suppress
from pathlib import Path
from tempfile import TemporaryDirectory

from sqlmodel import Session

from colony.refusals.books import (
    BookBusy,
    BookIsNewer,
    BookNotReachable,
    NoSuchCopy,
    NotABook,
)
from colony.store.backups.backups import (
    backup_folder,
    copy_before,
    copy_file,
    list_copies,
    new_path,
    verify,
)
from colony.store.backups.transfer import book_rows, replace_rows
from colony.store.book import Book, open_book
from colony.store.engine import WAIT_SECONDS, turn
from colony.store.failures import in_words, refusal_of
from colony.store.journal.journal import Recorder, tell, write_entry
from colony.store.location import is_url, make_folder

NEWEST, RESTORE_ACT = "newest", "book restore"
_REASON = "before-restore"
_BESIDE = ("", "-wal", "-shm")


def find_copy(location: str, name: str) -> Path:
    """The backup of a name or path, or the newest; `NoSuchCopy` where there is none.

    What a restore put aside is never the newest: it may be what was broken.
    """
    copies = [copy for copy in list_copies(location) if copy.reason != _REASON]
    if name == NEWEST and copies:
        return copies[0].path
    for path in (backup_folder(location) / Path(name).name, Path(name)):
        if path.is_file():
            return path
    raise NoSuchCopy(name, str(backup_folder(location)))


def restore(location: str, copy: Path) -> Path | None:
    """Put a verified backup in the place of the book; return where the book that was there is kept.

    Other programs may have the book open: they go on in the restored one.

    Raises
    ------
    CopyDamaged, BookIsNewer
        The backup cannot be used; the book was not touched.
    BookBusy, BookNotReachable, DiskFull
        What is there cannot be kept, or not be replaced.
    """
    _refuse_unusable(copy)
    kept = _restore_url(location, copy) if is_url(location) else _restore_file(location, copy)
    book = open_book(location)
    _write_down(book, copy)
    book.close()
    return kept


def _refuse_unusable(copy: Path) -> None:
    from colony.store.schema import upgrade  # noqa: PLC0415 - loads alembic

    version = verify(copy)
    if version not in upgrade.known_versions():
        raise BookIsNewer(str(copy), version)


def _restore_file(location: str, copy: Path) -> Path | None:
    make_folder(Path(location))
    if not Path(location).exists():
        _put(copy, Path(location))
        return None
    kept = new_path(location, _REASON)
    try:
        copy_file(location, kept, verified=False)
        _overwrite(copy, location)
    except NotABook:  # too damaged to be copied page by page, or to be written in
        _set_aside(location, kept)
        _put(copy, Path(location))
    return kept


def _overwrite(copy: Path, location: str) -> None:
    """Write the pages of the backup into the file, as one transaction that others wait for."""
    until = time.monotonic() + WAIT_SECONDS

    def give_up_in_time(_status: int, _remaining: int, _total: int) -> None:
        if time.monotonic() > until:
            raise BookBusy(location)

    try:
        with closing(sqlite3.connect(copy)) as source, closing(sqlite3.connect(location)) as book:
            source.backup(book, progress=give_up_in_time)
    except sqlite3.Error as failed:
        raise refusal_of(failed, location) from failed


def _set_aside(location: str, kept: Path) -> None:
    """Keep the damaged files as they are."""
    try:
        for ending in _BESIDE:
            with suppress(FileNotFoundError):
                Path(location + ending).replace(f"{kept}{ending}")
    except OSError as failed:
        raise BookNotReachable(location, failed.strerror or "cannot be kept") from failed


def _put(copy: Path, book: Path) -> None:
    """Put a copy where no book is; it has the name of the book only when it is complete."""
    unfinished = book.with_name(f"{book.name}.part")
    try:
        shutil.copyfile(copy, unfinished)
        unfinished.replace(book)
    except OSError as failed:
        raise BookNotReachable(str(book), failed.strerror or "cannot be written") from failed
    finally:
        unfinished.unlink(missing_ok=True)


def _restore_url(location: str, copy: Path) -> Path | None:
    """Put the rows of the backup into the database, in one transaction."""
    there = open_book(location, begin=True)
    kept = copy_before(there.engine, location, _REASON)
    with _opened_copy(copy) as backup:
        rows, journal = book_rows(backup)
    with in_words(location), turn(there.engine) as connection:
        replace_rows(connection, rows, journal)
    there.close()
    return kept


@contextmanager
def _opened_copy(copy: Path) -> Iterator[Book]:
    """A backup, brought up to date in a place of its own: it is never written in itself."""
    with TemporaryDirectory() as folder:
        path = Path(folder) / "copy.colony"
        shutil.copyfile(copy, path)
        book = open_book(str(path))
        yield book
        book.close()


def _write_down(book: Book, copy: Path) -> None:
    """Say in the journal of the restored book where it came from."""
    with in_words(book.location), turn(book.engine) as connection, Session(connection) as session:
        recorder = Recorder(session)
        tell(session, f"restored from {copy.name}")
        write_entry(session, RESTORE_ACT, recorder, always=True)
        session.commit()
