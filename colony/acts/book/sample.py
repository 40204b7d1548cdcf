"""Make a book of the sample colony: an invented farm, moved in time so that it is of today."""

import os
from contextlib import suppress
from dataclasses import dataclass
from datetime import date
from pathlib import Path

import colony
from colony.acts.book.importing.folder import import_colony
from colony.exchange.folder.folder import read_folder
from colony.exchange.folder.shifting import shifted
from colony.refusals.books import BookAlreadyThere, BookNotReachable
from colony.refusals.exchange import NotAColonyFolder
from colony.store.book import begin_book
from colony.store.location import is_url

FOLDER = "sample_colony"


@dataclass(frozen=True)
class Sample:
    """Where the sample book is, and how many rows it has."""

    path: str
    rows: int


def make_sample_book(*, location: str, today: date) -> Sample:
    """Begin a book at a free place and fill it; a book that fails on the way leaves no trace.

    Raises
    ------
    BookAlreadyThere
        Something is at that place.
    BookNotReachable
        It cannot be written there.
    """
    if is_url(location):
        return Sample(location, _fill(location, today))
    place = Path(location)
    if os.path.lexists(place):
        raise BookAlreadyThere(location)
    part = place.with_name(f".{place.name}.{os.getpid()}.part")
    try:
        rows = _fill(str(part), today)
        part.rename(place)
    except OSError as failed:
        raise BookNotReachable(location, failed.strerror or "no reason") from failed
    finally:
        with suppress(OSError):
            part.unlink()
    return Sample(location, rows)


def sample_folder() -> Path:
    """The sample colony's files: beside the package in a checkout, inside it when installed."""
    package = Path(colony.__file__).parent
    inside = package / FOLDER
    return inside if inside.is_dir() else package.parent / FOLDER


def _fill(location: str, today: date) -> int:
    book = begin_book(location)
    try:
        with book.act("sample") as session:
            folder = shifted(read_folder(sample_folder()), today)
            done = import_colony(session, folder, name="the sample colony", dry_run=False)
            for fault in done.errors:
                raise NotAColonyFolder(str(sample_folder()), fault.problem)
            return done.added
    finally:
        book.close()
