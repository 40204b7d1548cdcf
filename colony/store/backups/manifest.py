"""What is written beside a backup: which book it is of, its last act, and its digest."""

import hashlib
import json
import sqlite3
from contextlib import closing, suppress
from dataclasses import asdict, dataclass, fields, replace
from pathlib import Path

from colony.refusals.books import CopyDamaged
from colony.store.backups.verification import only_read
from colony.store.files import settle

_CHUNK = 1 << 20


@dataclass(frozen=True)
class Manifest:
    """One backup: the id of its book, its last act, its size and its SHA-256.

    `tested` is the moment (UTC, ISO 8601) at which it was last restored as a test.
    """

    book: str
    last_act: int
    last_act_id: str
    last_at: str
    bytes: int
    sha256: str
    tested: str | None = None


def manifest_path(copy: Path) -> Path:
    """Where the manifest of a backup is."""
    return copy.with_name(f"{copy.name}.json")


def write_manifest(copy: Path, manifest: Manifest) -> None:
    """Write a manifest whole or not at all; `OSError` where that cannot be."""
    path = manifest_path(copy)
    unfinished = path.with_name(f"{path.name}.part")
    try:
        unfinished.write_text(json.dumps(asdict(manifest), indent=1) + "\n", "utf-8")
        settle(unfinished, path, like=copy if copy.exists() else None)
    finally:
        with suppress(OSError):
            unfinished.unlink(missing_ok=True)


def read_manifest(copy: Path) -> Manifest | None:
    """The manifest of a backup; None where it has none, as those of an older program.

    Raises
    ------
    CopyDamaged
        There is one, and it cannot be read.
    """
    try:
        written = json.loads(manifest_path(copy).read_text("utf-8"))
        return Manifest(**{field.name: written[field.name] for field in fields(Manifest)})
    except FileNotFoundError:
        return None
    except (OSError, ValueError, TypeError, KeyError, RecursionError) as wrong:
        raise CopyDamaged(str(copy), "what is written beside it cannot be read") from wrong


def mark_tested(copy: Path, moment: str) -> None:
    """Keep when a backup was last restored as a test; one without a manifest gets its own."""
    known = read_manifest(copy) or manifest_of(copy)
    if known is not None:
        write_manifest(copy, replace(known, tested=moment))


def book_in(file: Path) -> str | None:
    """The id of the book in a file; None where it is of a schema that has no identity yet.

    Raises
    ------
    CopyDamaged
    """
    try:
        with closing(only_read(file)) as copy:
            if not copy.execute("SELECT 1 FROM sqlite_schema WHERE name = 'book'").fetchone():
                return None
            return str(copy.execute("SELECT id FROM book").fetchone()[0])
    except (sqlite3.Error, TypeError) as wrong:
        raise CopyDamaged(str(file), str(wrong)) from wrong


def manifest_of(file: Path) -> Manifest | None:
    """What a file is a backup of, all of it read for its digest; None as `book_in` has it.

    Raises
    ------
    CopyDamaged
    """
    book = book_in(file)
    if book is None:
        return None
    try:
        with closing(only_read(file)) as copy:
            last = copy.execute(
                "SELECT id, act_id, at FROM journal ORDER BY id DESC LIMIT 1"
            ).fetchone()
    except (sqlite3.Error, TypeError) as wrong:
        raise CopyDamaged(str(file), str(wrong)) from wrong
    number, act_id, at = last or (0, "", "")
    return Manifest(book, number, act_id, at, file.stat().st_size, digest_of_file(file))


def digest_of_file(file: Path) -> str:
    """SHA-256 (FIPS 180-4) of the bytes of a file."""
    with file.open("rb") as read:
        hashed = hashlib.sha256()
        while chunk := read.read(_CHUNK):
            hashed.update(chunk)
    return hashed.hexdigest()


def follows(later: Path, earlier: Manifest) -> bool:
    """Whether one backup was made after another of the same book: its journal holds the other's end."""
    if not earlier.last_act:
        return True
    with suppress(sqlite3.Error), closing(only_read(later)) as file:
        found = file.execute(
            "SELECT act_id FROM journal WHERE id = ?", (earlier.last_act,)
        ).fetchone()
        return found is not None and found[0] == earlier.last_act_id
    return False
