"""Read a book where nothing may be written: from a copy of one moment, made for the reading.

SQLite cannot take part in the locks of a file that it may not write beside, so somebody who
writes meanwhile would be read half before and half after an act. The copy is of one moment: it
is made again until the file was not changed while it was copied.
"""

import shutil
import sqlite3
import time
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

AT_REST_SECONDS = 0.05
"""A file that was changed so lately may be changed again within one tick of its clock."""

_PAUSE_SECONDS = 0.02
_LOG = "-wal"

_Stamp = tuple[int, int, int] | None


class Snapshot(sqlite3.Connection):
    """A connection to a copy, which goes with it."""

    def __init__(self, *facts: Any, **named: Any) -> None:  # noqa: ANN401 - as sqlite3 takes them
        super().__init__(*facts, **named)
        self.folder: TemporaryDirectory[str] | None = None

    def close(self) -> None:
        """Close it, and take the copy away."""
        super().close()
        if self.folder is not None:
            self.folder.cleanup()
            self.folder = None


def connect_to_snapshot(path: Path, wait_seconds: float) -> Snapshot:
    """Copy a book as of one moment, and open the copy so that it cannot be changed.

    Raises
    ------
    sqlite3.OperationalError
        It was changed all the while, or cannot be read.
    """
    folder = TemporaryDirectory(prefix="colony-", ignore_cleanup_errors=True)
    try:
        copy = _copied(path, Path(folder.name), wait_seconds)
        connection = sqlite3.connect(copy, factory=Snapshot, check_same_thread=False)
    except BaseException:
        folder.cleanup()
        raise
    connection.folder = folder
    connection.isolation_level = None
    connection.execute("PRAGMA trusted_schema = OFF")
    connection.execute("PRAGMA query_only = ON")
    return connection


def _copied(path: Path, folder: Path, wait_seconds: float) -> Path:
    copy, ends = folder / "book.colony", time.monotonic() + wait_seconds
    try:
        while not _copy_at_rest(path, copy):
            if time.monotonic() > ends:
                raise sqlite3.OperationalError("database is locked")
            time.sleep(_PAUSE_SECONDS)
    except OSError as failed:
        why = failed.strerror or "cannot be read"
        raise sqlite3.OperationalError(f"unable to open database file: {why}") from failed
    return copy


def _copy_at_rest(path: Path, copy: Path) -> bool:
    """Copy a file and then its log; whether the file was the same before and after.

    The log only grows while the file is at rest, and what is half written at its end is not
    read (sqlite.org, "Write-Ahead Logging", its checksums).
    """
    before, log = _stamp(path), Path(f"{path}{_LOG}")
    if before is not None and time.time() - before[1] / 1e9 < AT_REST_SECONDS:
        return False
    shutil.copyfile(path, copy)
    copied_log = Path(f"{copy}{_LOG}")
    copied_log.unlink(missing_ok=True)
    if _stamp(log) is not None:
        shutil.copyfile(log, copied_log)
    return _stamp(path) == before


def _stamp(path: Path) -> _Stamp:
    try:
        found = path.stat()
    except FileNotFoundError:
        return None
    return found.st_ino, found.st_mtime_ns, found.st_size
