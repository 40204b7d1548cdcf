"""Backups of a book: consistent whoever is writing in it, verified, and kept by a rotation."""

import datetime as dt
import os
import re
import sqlite3
from contextlib import closing, suppress
from dataclasses import dataclass
from pathlib import Path

from sqlalchemy import Engine, make_url

from colony.refusals.books import BookNotReachable
from colony.store import clock
from colony.store.backups.verification import verify
from colony.store.failures import refusal_of
from colony.store.location import is_url, users_folder

BACKUP_FOLDER = "backups"
DAILY, BY_HAND = "daily", "by-hand"

_MOMENT = "%Y%m%dT%H%M%S%f"
_NAME = re.compile(r"-(?P<moment>\d{8}T\d{12})-(?P<reason>[a-z0-9-]+)\.colony", re.ASCII)


@dataclass(frozen=True)
class Copy:
    """One backup: where it is, the moment (UTC) that it is of, and why it was made."""

    path: Path
    made: dt.datetime
    reason: str
    bytes: int


def copy_before(engine: Engine, location: str, reason: str) -> Path:
    """Copy a book into its backup folder before something is done to it, and say where.

    Raises
    ------
    BookNotReachable, DiskFull
        The copy cannot be written; then nothing else is done either.
    """
    path = new_path(location, reason)
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
    BookNotReachable, DiskFull, CopyDamaged
    """
    unfinished = path.with_name(f"{path.name}.part")
    try:
        path.parent.mkdir(exist_ok=True)
        with closing(sqlite3.connect(book)) as source, closing(sqlite3.connect(unfinished)) as copy:
            source.backup(copy)
            # One file that needs no other beside it, also where it cannot be written to.
            copy.execute("PRAGMA journal_mode = DELETE")
        if verified:
            verify(unfinished)
        unfinished.replace(path)
    except sqlite3.Error as failed:
        raise refusal_of(failed, str(path)) from failed
    except OSError as failed:
        raise BookNotReachable(str(path), failed.strerror or "cannot be written") from failed
    finally:
        with suppress(OSError):
            unfinished.unlink(missing_ok=True)


def backup_folder(location: str) -> Path:
    """Where the backups of a book are: beside its file, or in the user's own data folder."""
    if not is_url(location):
        return Path(location).absolute().parent / BACKUP_FOLDER
    return users_folder() / BACKUP_FOLDER


def new_path(location: str, reason: str) -> Path:
    """A name for a backup made now."""
    moment = clock.now().strftime(_MOMENT)
    return backup_folder(location) / f"{_stem(location)}-{moment}-{reason}.colony"


def list_copies(location: str) -> list[Copy]:
    """The backups of a book, the newest first."""
    stem, copies = _stem(location), []
    folder = backup_folder(location)
    with suppress(OSError), os.scandir(folder) as files:
        for file in files:
            parts = _NAME.fullmatch(file.name.removeprefix(stem))
            if parts and file.name.startswith(stem):
                moment = dt.datetime.strptime(parts["moment"], _MOMENT).replace(tzinfo=dt.UTC)
                size = file.stat().st_size
                copies.append(Copy(folder / file.name, moment, parts["reason"], size))
    return sorted(copies, key=lambda copy: copy.made, reverse=True)


def _stem(location: str) -> str:
    if not is_url(location):
        return Path(location).stem
    url = make_url(location)
    return re.sub(r"[^A-Za-z0-9]+", "-", f"{url.host or 'here'}-{url.database or 'book'}")
