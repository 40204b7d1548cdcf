"""What a file holds, read only where it is a plain file of a size that a colony can have."""

import stat
from pathlib import Path

from colony.refusals.exchange import FileNotReadable, FileTooLarge, NoSuchFile, NotAColonyFolder

MOST_MEGABYTES = 64


def read_content(path: Path) -> bytes:
    """Read a whole file.

    Raises
    ------
    NoSuchFile, NotAColonyFolder, FileNotReadable, FileTooLarge
        It is missing, a folder, a device or pipe that has no end, or too large.
    """
    try:
        found = path.stat()
        if stat.S_ISDIR(found.st_mode):
            raise NotAColonyFolder(str(path), "a folder where a file was to be")
        if not stat.S_ISREG(found.st_mode):
            raise FileNotReadable(str(path), "it is no plain file")
        if found.st_size > MOST_MEGABYTES * 2**20:
            raise FileTooLarge(str(path), MOST_MEGABYTES)
        return path.read_bytes()
    except FileNotFoundError as missing:
        raise NoSuchFile(str(path)) from missing
    except (OSError, ValueError) as failed:
        raise FileNotReadable(
            str(path), getattr(failed, "strerror", None) or "bad path"
        ) from failed
