"""Open the book for one command: to read in, or for one act."""

import sys
from collections.abc import Callable, Iterator
from contextlib import ExitStack, closing, contextmanager
from typing import TYPE_CHECKING, TypeVar

import typer

from colony.commands.cli import written
from colony.commands.cli.output import warn

if TYPE_CHECKING:
    from sqlmodel import Session

    from colony.store.book import Book


Answer = TypeVar("Answer")


@contextmanager
def opened(book: str | None) -> Iterator["Book"]:
    """The book itself, for what is done to all of it; it is let go of at the end."""
    from colony.store.book import open_book
    from colony.store.location import book_location

    with closing(open_book(book_location(book))) as found:
        yield found


@contextmanager
def reading(book: str | None) -> Iterator["Session"]:
    """The session of a command that only reads."""
    with opened(book) as found, found.reading() as session:
        write_as_the_house(session)
        yield session


@contextmanager
def trying(book: str | None) -> Iterator["Session"]:
    """The session of a trial: in the book, or in an empty one where there is none yet."""
    from tempfile import TemporaryDirectory

    from colony.refusals.books import NoSuchBook
    from colony.store.book import begin_book

    with ExitStack() as stack:
        try:
            found = stack.enter_context(opened(book))
        except NoSuchBook:
            warn(["There is no book yet: tried in an empty one, which is not kept."])
            folder = stack.enter_context(TemporaryDirectory())
            found = stack.enter_context(closing(begin_book(f"{folder}/trial.colony")))
        session = stack.enter_context(found.reading())
        write_as_the_house(session)
        yield session


@contextmanager
def acting(book: str | None, act: str, *, begin: bool = False) -> Iterator["Session"]:
    """The session of one act.

    With `begin`, a book that is not there yet is begun, and that is said; an act on what
    would have to stand in it already is more likely given a mistyped path.
    """
    from colony.refusals.books import NoSuchBook
    from colony.store.backups.daily import backup_to_try, concerns_of
    from colony.store.book import open_book
    from colony.store.location import book_location
    from colony.store.outcome import WRITTEN

    location = book_location(book)
    try:
        found = open_book(location)
    except NoSuchBook:
        if not begin:
            raise
        found = open_book(location, begin=True)
        warn([f"There was no book at {location}: a new one was begun."])
    session = None
    try:
        with (
            closing(found),
            found.act(act, act_id=written.next_id(), waiting=_warn_one) as session,
        ):
            write_as_the_house(session)
            yield session
    finally:
        if session is not None and WRITTEN in session.info:
            written.note(session.info[WRITTEN])
    warn(concerns_of(session))
    written.try_later(backup_to_try(session))


def _warn_one(sentence: str) -> None:
    warn([sentence])


def write_as_the_house(session: "Session") -> None:
    """Write every measure in the units of this book from now on."""
    from colony.notation.house import use_units
    from colony.store.settings import read_settings

    use_units(read_settings(session).units)


def insisting(call: Callable[[bool], Answer], *, anyway: bool) -> Answer:
    """Do what can hardly be meant only if the breeder says so: asked at a terminal, else refused.

    Parameters
    ----------
    call
        Does it; what it is given says whether to write it anyway.
    """
    from colony.commands.cli.remedies import sentence_of
    from colony.refusals.animals import HardlyMeant

    try:
        return call(anyway)
    except HardlyMeant as doubt:
        if not sys.stdin.isatty():
            raise
        typer.confirm(f"{sentence_of(doubt)} Write it?", abort=True, err=True)
        return call(True)
