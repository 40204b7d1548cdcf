"""Restore a backup as a test: in a place of its own, read through and held to its own journal."""

import sqlite3
from collections.abc import Iterator
from contextlib import closing, contextmanager
from pathlib import Path
from tempfile import TemporaryDirectory

from sqlmodel import Session

from colony.refusals.base import Refusal
from colony.refusals.books import BookIsNewer, CopyDamaged
from colony.store.backups.manifest import Manifest, digest_of_file, read_manifest
from colony.store.backups.verification import only_read, verify
from colony.store.engine import looking, make_engine
from colony.store.failures import STUMBLES, in_words, refusal_of
from colony.store.journal.chain import journal_is_whole
from colony.store.journal.entries import read_entries
from colony.store.journal.replay import differences, kept_rows, recorded_rows
from colony.store.schema.book_version import bring_up_to_date


def try_restore(copy: Path) -> None:
    """Restore a backup into a place of its own and take it away again.

    Raises
    ------
    CopyDamaged, BookIsNewer, DiskFull, BookNotReachable
        It could not be put in the place of a book.
    """
    with restored_aside(copy):
        pass


@contextmanager
def restored_aside(copy: Path) -> Iterator[Path]:
    """A backup in a place of its own: whole, of this schema, and as its own journal tells.

    It is made there because a backup is never written in itself.

    Raises
    ------
    CopyDamaged
        Its bytes are not those that were written; a page, an index or a reference of it is
        broken; an act of its journal does not fit the one before; or a row is not as its
        journal tells.
    BookIsNewer
        It is of a newer program.
    """
    known = read_manifest(copy)
    _refuse_changed(copy, known)
    _refuse_unusable(copy)
    with TemporaryDirectory(ignore_cleanup_errors=True) as folder:
        path = Path(folder) / "copy.colony"
        try:
            # Page by page, not as a file: the copy may have a log of its own beside it.
            with closing(only_read(copy)) as source, closing(sqlite3.connect(path)) as target:
                source.backup(target)
            if why := _untruth_of(path):
                raise CopyDamaged(str(copy), why)
        except sqlite3.Error as failed:
            raise refusal_of(failed, str(path)) from failed
        yield path


def _refuse_changed(copy: Path, known: Manifest | None) -> None:
    if known is not None and known.sha256 != digest_of_file(copy):
        raise CopyDamaged(str(copy), "its bytes are not those that were written")


def _refuse_unusable(copy: Path) -> None:
    from colony.store.schema import upgrade  # noqa: PLC0415 - loads alembic

    version = verify(copy)
    if version not in upgrade.known_versions():
        raise BookIsNewer(str(copy), version)


def _untruth_of(path: Path) -> str | None:
    """Bring a copy to this schema, and hold it to its own journal."""
    engine = make_engine(str(path))
    try:
        with in_words(str(path)):
            bring_up_to_date(engine, str(path))
            with Session(looking(engine)) as session:
                return _untruth(session)
    except Refusal as broken:
        return broken.sentence.rstrip(".")
    except STUMBLES as broken:  # over what no book can hold
        return (str(broken).splitlines() or [type(broken).__name__])[0]
    finally:
        engine.dispose()


def _untruth(session: Session) -> str | None:
    number = journal_is_whole(session.connection())
    if number is not None:
        return f"act {number} of its journal does not fit the one before it"
    recorded = recorded_rows(read_entries(session))
    for difference in differences(recorded, kept_rows(session.connection())):
        table, key = difference.place
        return f"row {key} of {table} is not as its journal tells"
    return None
