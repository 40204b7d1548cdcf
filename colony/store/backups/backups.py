"""Backups of a book: consistent whoever is writing in it, verified, and kept by a rotation."""

import datetime as dt
import os
import re
import sqlite3
from collections.abc import Sequence
from contextlib import closing, suppress
from dataclasses import dataclass, replace
from pathlib import Path

from sqlalchemy import Engine

from colony.refusals.books import BookNotReachable, CopyDamaged
from colony.store import clock
from colony.store.backups.manifest import (
    Manifest,
    follows,
    read_manifest,
)
from colony.store.backups.naming import name_copy, refuse_folder_not_there
from colony.store.backups.verification import verify
from colony.store.engine import WAIT_SECONDS
from colony.store.failures import refusal_of
from colony.store.files import may_write
from colony.store.location import is_url, server_and_database, users_folder
from colony.store.snapshot import connect_to_snapshot

BACKUP_FOLDER = "backups"
DAILY, BY_HAND = "daily", "by-hand"

_MOMENT = "%Y%m%dT%H%M%S%f"
_NAME = re.compile(r"-(?P<moment>\d{8}T\d{12})-(?P<reason>[a-z0-9-]+)\.colony", re.ASCII)


@dataclass(frozen=True)
class Copy:
    """One backup: where it is, the moment (UTC) that it is of, why it was made, and of which book.

    `tested` is when it was last restored as a test; None for never.
    """

    path: Path
    made: dt.datetime
    reason: str
    bytes: int
    book: str | None = None
    tested: str | None = None


def copy_before(engine: Engine, location: str, reason: str) -> Path:
    """Copy a book into its backup folder before something is done to it, and say where.

    Raises
    ------
    BookNotReachable, DiskFull
        The copy cannot be written; then nothing else is done either.
    """
    path = new_path(location, reason)
    _make_backup_folder(path.parent)
    if is_url(location):
        from colony.store.backups.old_copies import copy_as_it_is  # noqa: PLC0415 - seldom

        copy_as_it_is(engine, path)
    else:
        copy_file(location, path)
    return path


def copy_file(book: str, path: Path, *, verified: bool = True) -> None:
    """Copy the file of a book page by page as of one moment, while others may write in it.

    The copy has its name only when it is complete and, unless asked otherwise, was verified.

    Raises
    ------
    FolderNotThere, BookNotReachable, DiskFull, CopyDamaged
    """
    unfinished = path.with_name(f"{path.name}.part")
    refuse_folder_not_there(path)
    try:
        unfinished.unlink(missing_ok=True)  # of a copy that was killed
        with closing(_source(Path(book))) as source, closing(sqlite3.connect(unfinished)) as copy:
            source.backup(copy)
            # One file that needs no other beside it, also where it cannot be written to.
            copy.execute("PRAGMA journal_mode = DELETE")
        if verified:
            verify(unfinished)
        name_copy(unfinished, path, like=Path(book))
    except sqlite3.Error as failed:
        raise refusal_of(failed, str(path)) from failed
    except OSError as failed:
        raise BookNotReachable(str(path), failed.strerror or "cannot be written") from failed
    finally:
        with suppress(OSError):
            unfinished.unlink(missing_ok=True)


def _source(book: Path) -> sqlite3.Connection:
    """A book to copy from; one that is not there is not begun."""
    if book.exists() and not may_write(book):
        return connect_to_snapshot(book, WAIT_SECONDS)
    return sqlite3.connect(f"{book.absolute().as_uri()}?mode=rw", uri=True)


def _make_backup_folder(folder: Path) -> None:
    try:
        folder.mkdir(exist_ok=True, parents=folder.parent == users_folder())
    except OSError as failed:
        raise BookNotReachable(str(folder), failed.strerror or "cannot be made") from failed


def backup_folder(location: str) -> Path:
    """Where the backups of a book are: beside its file, or in the user's own data folder."""
    if not is_url(location):
        return Path(location).absolute().parent / BACKUP_FOLDER
    return users_folder() / BACKUP_FOLDER


def new_path(location: str, reason: str) -> Path:
    """A name for a backup made now."""
    moment = clock.now().strftime(_MOMENT)
    return backup_folder(location) / f"{_stem(location)}-{moment}-{reason}.colony"


def list_copies(location: str, book: str | None = None) -> list[Copy]:
    """The backups of the book at a place, the newest first.

    Parameters
    ----------
    book
        The id of the book, if it is known: copies of another one that was there are left out.
    """
    copies = [_with_manifest(copy) for copy in _by_name(location)]
    ours = [copy for copy in copies if book is None or copy.book in (None, book)]
    return sorted(ours, key=lambda copy: copy.made, reverse=True)


def has_daily_copy(location: str, book: str, day: dt.date) -> bool:
    """Whether a book has its copy of a day: asked before each act, so only that copy is looked at."""
    return any(
        _with_manifest(copy).book in (None, book)
        for copy in _by_name(location)
        if copy.reason == DAILY and copy.made.date() == day
    )


def _by_name(location: str) -> list[Copy]:
    """What has the name of a copy of the book at a place; no file is opened."""
    stem, copies = _stem(location), []
    folder = backup_folder(location)
    with suppress(OSError), os.scandir(folder) as files:
        for file in files:
            parts = _NAME.fullmatch(file.name.removeprefix(stem))
            if parts and file.name.startswith(stem):
                moment = dt.datetime.strptime(parts["moment"], _MOMENT).replace(tzinfo=dt.UTC)
                size = file.stat().st_size
                copies.append(Copy(folder / file.name, moment, parts["reason"], size))
    return copies


def _with_manifest(copy: Copy) -> Copy:
    known = _known(copy)
    return replace(copy, book=known.book, tested=known.tested) if known else copy


def newest_of(copies: Sequence[Copy]) -> Copy | None:
    """The copy that holds the last acts, whatever the clock said when it was made."""
    newest: Copy | None = None
    for copy in copies:
        if newest is None or _is_newer(copy, newest):
            newest = copy
    return newest


def _is_newer(copy: Copy, than: Copy) -> bool:
    known, other = _known(copy), _known(than)
    if known is None or other is None:
        return copy.made > than.made
    if follows(copy.path, other):
        return known.last_act > other.last_act or copy.made > than.made
    return not follows(than.path, known) and known.last_at > other.last_at


def _known(copy: Copy) -> Manifest | None:
    try:
        return read_manifest(copy.path)
    except CopyDamaged:
        return None


def _stem(location: str) -> str:
    if not is_url(location):
        return Path(location).stem
    return re.sub(r"[^A-Za-z0-9]+", "-", server_and_database(location)) or "book"
