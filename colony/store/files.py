"""Put a file in its place: whole and on the disk, or not at all, and readable as the book is."""

import os
import stat
from contextlib import suppress
from pathlib import Path

OWNER_ONLY = 0o600


def settle(unfinished: Path, path: Path, *, like: Path | None = None) -> None:
    """Give a finished file its name: what has the name is whole, also when the power fails.

    Parameters
    ----------
    like
        The file whose rights it has; without one, or where that is none, its owner's alone.

    Raises
    ------
    OSError
    """
    unfinished.chmod(rights_of(like))
    with unfinished.open("rb+") as file:
        os.fsync(file.fileno())
    unfinished.replace(path)
    sync_folder(path.parent)


def may_write(path: Path) -> bool:
    """Whether a file that is there, and what SQLite keeps beside it, may be written."""
    return os.access(path, os.W_OK) and os.access(path.parent, os.W_OK)


def rights_of(path: Path | None) -> int:
    """The rights of a file, as `chmod` takes them; its owner's alone where there is none."""
    try:
        return OWNER_ONLY if path is None else stat.S_IMODE(path.stat().st_mode)
    except OSError:
        return OWNER_ONLY


def sync_folder(folder: Path) -> None:
    """See that a new name is on the disk; Windows does so by itself and opens no folder."""
    if os.name == "nt":
        return
    with suppress(OSError):  # a file system that cannot is no worse than none asked
        number = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(number)
        finally:
            os.close(number)


def keep_to_owner() -> None:
    """From now on files that this process makes are its user's alone, whatever was set before."""
    os.umask(0o077)
