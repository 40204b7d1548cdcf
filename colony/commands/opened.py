"""Open the book for one command: to read in, or for one act."""

from collections.abc import Iterator
from contextlib import contextmanager
from typing import TYPE_CHECKING

from colony.commands.output import warn

if TYPE_CHECKING:
    from sqlmodel import Session

    from colony.store.book import Book


@contextmanager
def opened(book: str | None) -> Iterator["Book"]:
    """The book itself, for what is done to all of it."""
    from colony.store.book import open_book
    from colony.store.location import book_location

    one = open_book(book_location(book))
    yield one
    one.close()


@contextmanager
def reading(book: str | None) -> Iterator["Session"]:
    """The session of a command that only reads."""
    from colony.store.book import open_book
    from colony.store.location import book_location

    with open_book(book_location(book)).reading() as session:
        yield session


@contextmanager
def acting(book: str | None, act: str, *, begin: bool = True) -> Iterator["Session"]:
    """The session of one act; a book that is not there yet is begun, and that is said.

    Without `begin` it is refused: an act that needs animals begins no empty book.
    """
    from colony.refusals.books import NoSuchBook
    from colony.store.book import open_book
    from colony.store.first_of_day import concerns_of
    from colony.store.location import book_location

    location = book_location(book)
    try:
        opened = open_book(location)
    except NoSuchBook:
        if not begin:
            raise
        opened = open_book(location, begin=True)
        warn([f"There was no book at {location}: a new one was begun."])
    with opened.act(act) as session:
        yield session
    warn(concerns_of(session))


def length_unit(session: "Session") -> str:
    """The unit of a length without one, as this book has it."""
    from colony.store.settings import read_settings

    return read_settings(session).length_unit


def volume_unit(session: "Session") -> str:
    """The unit of a volume without one, as this book has it."""
    from colony.store.settings import read_settings

    return read_settings(session).volume_unit
