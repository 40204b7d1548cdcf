"""Write files beside where they are to be and then rename them: what is there is never half."""

import os
import shutil
from collections.abc import Mapping
from pathlib import Path

from colony.refusals.exchange import CannotWrite, NotAnExport, WouldOverwrite


def write_file(path: Path, content: str | bytes, *, overwrite: bool) -> None:
    """Write one file, whole or not at all.

    Raises
    ------
    WouldOverwrite
        Something is there, and may not be replaced.
    CannotWrite
        The disk or the folder does not take it.
    """
    if path.is_dir() or (os.path.lexists(path) and not overwrite):
        raise WouldOverwrite(str(path))
    try:
        _replace_all(path.parent, {path.name: content})
    except (OSError, ValueError) as failed:
        raise CannotWrite(str(path), _why(failed)) from failed


def write_files(folder: Path, texts: Mapping[str, str], *, sign: str, overwrite: bool) -> None:
    """Write the files of a folder; refuses as `write_file` does.

    A new folder appears whole or not at all. Of one that is there, other files are left alone.

    Parameters
    ----------
    sign
        The file by which a folder of this kind is known.

    Raises
    ------
    NotAnExport
        There are files in the folder, and it is not of this kind: nothing is strewn among them.
    """
    there = os.path.lexists(folder)
    if there and not folder.is_dir():
        raise WouldOverwrite(str(folder))
    try:
        if there and any(folder.iterdir()):
            if not (folder / sign).is_file():
                raise NotAnExport(str(folder), sign)
            if not overwrite:
                raise WouldOverwrite(str(folder))
            _replace_all(folder, texts)
        else:
            _make_folder(folder, texts)
    except (OSError, ValueError) as failed:
        raise CannotWrite(str(folder), _why(failed)) from failed


def _replace_all(folder: Path, texts: Mapping[str, str | bytes]) -> None:
    """Rename nothing before everything is written."""
    parts = {name: _part(folder / name) for name in texts}
    try:
        for name, text in texts.items():
            _write(parts[name], text)
        for name in texts:
            parts[name].replace(folder / name)
    finally:
        for part in parts.values():
            part.unlink(missing_ok=True)


def _make_folder(folder: Path, texts: Mapping[str, str]) -> None:
    part = _part(folder)
    part.mkdir(parents=True)
    try:
        for name, text in texts.items():
            _write(part / name, text)
        if folder.is_dir():
            folder.rmdir()
        part.rename(folder)
    finally:
        shutil.rmtree(part, ignore_errors=True)


def _part(path: Path) -> Path:
    return path.with_name(f".{path.name}.{os.getpid()}.part")


def _write(path: Path, content: str | bytes) -> None:
    with path.open("wb") as file:
        file.write(content if isinstance(content, bytes) else content.encode("utf-8"))
        file.flush()
        os.fsync(file.fileno())


def _why(failed: OSError | ValueError) -> str:
    return getattr(failed, "strerror", None) or "no such path can be"
