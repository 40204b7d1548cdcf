"""Put a backup in the place of a book, and keep what was there.

What is kept and what is overwritten are one moment: no act of somebody else comes between.
"""

import shutil
import sqlite3
from collections.abc import Iterator
from contextlib import closing, contextmanager, suppress
from dataclasses import dataclass
from pathlib import Path
from tempfile import TemporaryDirectory

from sqlmodel import Session

from colony.refusals.books import (
    BookBusy,
    BookIsNewer,
    BookNotReachable,
    NoSuchCopy,
    NotABook,
    NotRestored,
)
from colony.store.backups.backups import (
    backup_folder,
    copy_before,
    copy_file,
    list_copies,
    new_path,
)
from colony.store.backups.transfer import book_rows, differing_row, replace_rows
from colony.store.backups.verification import difference, only_read, verify
from colony.store.book import Book, open_book
from colony.store.engine import WAIT_SECONDS, turn
from colony.store.failures import in_words, refusal_of
from colony.store.journal.journal import Recorder, tell
from colony.store.journal.writing import write_entry
from colony.store.location import is_url, make_folder, named

NEWEST, RESTORE_ACT = "newest", "book restore"
_REASON = "before-restore"
_BESIDE = ("", "-wal", "-shm", "-journal")
_MAGIC = b"SQLite format 3\0"
"""The first bytes of every file of SQLite ("Database File Format", sqlite.org, 1.3.1)."""

_OTHERS_WRITE = (sqlite3.SQLITE_BUSY, sqlite3.SQLITE_LOCKED)


@dataclass(frozen=True)
class Replaced:
    """What was in the place of a book, and where it is now."""

    kept: Path | None = None
    """The book that was there."""
    set_aside: tuple[Path, ...] = ()
    """Logs of a book, which would have been read into the restored one."""


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


def restore(location: str, copy: Path) -> Replaced:
    """Put a verified backup in the place of the book; return where what was there is kept.

    Other programs may have the book open: they go on in the restored one. Each act of theirs
    is either in what is kept or in the restored book.

    Raises
    ------
    CopyDamaged, BookIsNewer
        The backup cannot be used; the book was not changed.
    BookBusy, BookNotReachable, DiskFull
        What is there cannot be kept, or not be replaced.
    NotRestored
        Read again, the book is not what the backup holds.
    """
    _refuse_unusable(copy)
    with _prepared(copy) as prepared:
        if is_url(location):
            return _restore_url(location, prepared)
        replaced = _restore_file(location, prepared)
        if wrong := difference(Path(location), prepared):
            raise NotRestored(location, wrong)
        return replaced


def _refuse_unusable(copy: Path) -> None:
    from colony.store.schema import upgrade  # noqa: PLC0415 - loads alembic

    version = verify(copy)
    if version not in upgrade.known_versions():
        raise BookIsNewer(str(copy), version)


@contextmanager
def _prepared(copy: Path) -> Iterator[Path]:
    """A backup as it is to be put in place: of this schema, its journal telling of the restore.

    It is made in a place of its own: a backup is never written in itself.
    """
    with TemporaryDirectory(ignore_cleanup_errors=True) as folder:
        path = Path(folder) / "copy.colony"
        try:
            # Page by page, not as a file: the copy may have a log of its own beside it.
            with closing(only_read(copy)) as source, closing(sqlite3.connect(path)) as target:
                source.backup(target)
            with closing(open_book(str(path))) as book:
                _write_down(book, copy)
            with closing(sqlite3.connect(path)) as alone:
                alone.execute("PRAGMA journal_mode = DELETE")
        except sqlite3.Error as failed:
            raise refusal_of(failed, str(path)) from failed
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
    if _may_be_opened(Path(location)):
        # What is too damaged to be copied page by page, or to be written in, is put aside.
        with suppress(NotABook):
            _overwrite(location, prepared, kept)
            return Replaced(kept)
    there, *logs = _set_aside(location, kept)
    _put(prepared, Path(location))
    return Replaced(there, tuple(log for log in logs if log))


def _may_be_opened(path: Path) -> bool:
    """Whether a file begins as a database; opening another one would take away the log beside it."""
    try:
        with path.open("rb") as file:
            return file.read(len(_MAGIC)) == _MAGIC
    except FileNotFoundError:
        return False
    except OSError as failed:
        raise BookNotReachable(str(path), failed.strerror or "cannot be read") from failed


def _overwrite(location: str, prepared: Path, kept: Path) -> None:
    """Keep the book and write the backup over its pages, as one transaction that others wait for."""

    def keep_first(status: int, _remaining: int, _total: int) -> None:
        """After its first page nobody else can write; until its last, all read what was there."""
        if status in _OTHERS_WRITE:
            raise BookBusy(location)
        if not kept.exists():
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
        unfinished.replace(book)
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
