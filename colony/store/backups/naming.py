"""Give a finished copy its name, and what is written beside it."""

from contextlib import suppress
from pathlib import Path

from colony.refusals.books import CopyDamaged, FolderNotThere
from colony.store.backups.manifest import manifest_of, write_manifest
from colony.store.files import settle


def name_copy(unfinished: Path, path: Path, *, like: Path | None) -> None:
    """Give a copy its name, with the rights of the book, after what is written beside it."""
    with suppress(CopyDamaged):  # what is kept of a broken book has none
        manifest = manifest_of(unfinished)
        if manifest is not None:
            write_manifest(path, manifest)
    settle(unfinished, path, like=like)


def refuse_folder_not_there(path: Path) -> None:
    """A folder that is not there is a disk that is not mounted, or a slip."""
    if not path.parent.is_dir():
        raise FolderNotThere(str(path), str(path.parent))
