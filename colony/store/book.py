"""Open a book, read in it, and write in it one act at a time."""

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from sqlalchemy import Engine
from sqlmodel import Session

from colony.refusals.base import Refusal
from colony.refusals.books import (
    BookAlreadyThere,
    BookNotReachable,
    BookVanished,
    DiskFull,
    NoSuchBook,
    NotABook,
    UnknownDatabase,
)
from colony.store.engine import (
    engine_to_read,
    has_log,
    looking,
    make_engine,
    take_turn,
    writing,
)
from colony.store.failures import STUMBLES, in_words
from colony.store.location import FileIdentity, identity, is_conninfo, is_url, make_folder, named
from colony.store.schema.book_version import SCHEMA, bring_up_to_date
from colony.store.schema.stored_version import version_of
from colony.store.waiting import told_after_a_second

if TYPE_CHECKING:
    from colony.store.journal.entries import Mark


@dataclass(frozen=True)
class Book:
    """One colony's database, open."""

    location: str
    engine: Engine
    file: FileIdentity | None = None
    why_only_read: Refusal | None = None
    """Why nothing can be written in it now, though it can be read: its disk is full."""

    @contextmanager
    def reading(self) -> Iterator[Session]:
        """A session to read in; what it changes is thrown away."""
        self._refuse_vanished()
        with (
            in_words(self.location),
            Session(looking(self.engine)) as session,
            _or_damaged(session, self.location),
        ):
            yield session

    @contextmanager
    def act(
        self,
        name: str,
        *,
        seen: "Mark | None" = None,
        act_id: str | None = None,
        waiting: Callable[[str], None] | None = None,
        wait_seconds: float | None = None,
    ) -> Iterator[Session]:
        """A session for one act: one transaction and one journal row, or nothing at all.

        Acts of several people come one after the other: the next begins when this one is over.
        Afterwards ``session.info[WRITTEN]`` is the number of the act in the journal.

        Parameters
        ----------
        seen
            Where the book stood (`latest`) when what is now changed was looked at. What
            somebody else has changed since is then refused, and told, not overwritten.
        act_id
            An id of the caller's own: what was written by it is not written again.
        waiting
            Told, after a second of waiting, for whom.
        wait_seconds
            How long a turn is waited for, `WAIT_SECONDS` if it is not said: a screen, which
            stands still meanwhile, waits less.

        Raises
        ------
        DoneAlready
            An act of that id is in the journal.
        OutcomeNotKnown
            The database went away while it wrote, and cannot be asked.
        ChangedMeanwhile, BookWasReplaced
            The book moved on since it was seen.
        BookBusy
            Another act has not ended for so long.
        BookVanished
            The file is not there any more, or another one has its name.
        """
        # What only an act needs is loaded with the first one, so that looking stays quick.
        from colony.store.backups.daily import begin_act  # noqa: PLC0415
        from colony.store.journal.conflicts import refuse_conflicts  # noqa: PLC0415
        from colony.store.journal.journal import Recorder  # noqa: PLC0415
        from colony.store.journal.writing import refuse_done, write_entry  # noqa: PLC0415
        from colony.store.outcome import commit  # noqa: PLC0415

        if self.why_only_read is not None:
            raise self.why_only_read
        self._refuse_vanished()
        with in_words(self.location), Session(writing(self.engine, wait_seconds)) as session:
            with told_after_a_second(self.engine, waiting):
                take_turn(session.connection())
            with _or_damaged(session, self.location):
                begin_act(session, self.engine, self.location)
                recorder = Recorder(session, act_id)
                refuse_done(session, recorder.act_id)
                yield session
                session.flush()
                if seen is not None:
                    refuse_conflicts(session, seen, recorder.steps)
                write_entry(session, name, recorder)
            commit(session, self.engine, self.location, recorder.act_id)

    def _refuse_vanished(self) -> None:
        """A file that was deleted or replaced would take acts that nobody sees again."""
        if self.file != identity(self.location):
            raise BookVanished(self.location)

    def close(self) -> None:
        """Let go of the database."""
        self.engine.dispose()


@contextmanager
def _or_damaged(session: Session, location: str) -> Iterator[None]:
    """Where somebody stumbles over a damaged row, refuse the book by `RowDamaged`."""
    try:
        yield
    except STUMBLES:
        from colony.store.damage import refuse_damaged  # noqa: PLC0415 - hardly ever needed

        session.rollback()
        refuse_damaged(session.connection(), location)
        raise


def open_book(location: str, *, begin: bool = False) -> Book:
    """Open the book at a path or URL, its schema brought up to date first.

    Parameters
    ----------
    begin
        Begin a new book where there is none.

    Raises
    ------
    NoSuchBook
        There is none, and none is to be begun.
    NotABook, BookIsNewer, BookNotReachable, FolderNotThere, UnknownDatabase
        What is there cannot be used.
    """
    if is_conninfo(location):
        raise UnknownDatabase(named(location))
    if not is_url(location):
        _check_place(Path(location), begin=begin)
        if begin and not Path(location).exists():
            _brought_up_to_date(make_engine(location), location).dispose()
    # From here on a file that vanishes is not begun anew.
    try:
        engine = _brought_up_to_date(make_engine(location, begins=False), location)
    except (BookNotReachable, DiskFull):
        if is_url(location) or not Path(location).exists():
            raise
        # A full disk has no room for what SQLite keeps beside a file, but the file can be read.
        engine = _brought_up_to_date(engine_to_read(Path(location)), location)
        return Book(location, engine, identity(location), DiskFull(location))
    return Book(location, engine, identity(location))


def _brought_up_to_date(engine: Engine, location: str) -> Engine:
    try:
        with in_words(location):
            bring_up_to_date(engine, location)
    except BaseException:
        engine.dispose()
        raise
    return engine


def find_again(book: Book) -> Book:
    """Open anew a book whose file went away, now that one is in its place; none is ever begun.

    A log of acts beside another file than ours would be mixed into that file: then only our own
    one will do, which is known by its number, also when its disk was mounted anew.

    Raises
    ------
    BookVanished
        There is no file, or not one to go on in.
    """
    now = identity(book.location)
    if now is None or book.file is None or not _may_be_ours(Path(book.location), now, book.file):
        raise BookVanished(book.location)
    book.close()
    engine = make_engine(book.location, begins=False)
    try:
        with in_words(book.location), engine.connect() as connection:
            found = version_of(connection, book.location)
    except Refusal:
        found = None
    if found != SCHEMA or identity(book.location) != now:
        engine.dispose()
        raise BookVanished(book.location)
    return Book(book.location, engine, now)


def _may_be_ours(path: Path, now: FileIdentity, before: FileIdentity) -> bool:
    return path.stat().st_size > 0 and (now[1] == before[1] or not has_log(path))


def begin_book(location: str) -> Book:
    """Begin a new book; `BookAlreadyThere` where something is at its path."""
    if not is_url(location) and Path(location).exists():
        raise BookAlreadyThere(named(location))
    return open_book(location, begin=True)


def _check_place(path: Path, *, begin: bool) -> None:
    if path.is_dir():
        raise NotABook(str(path), "it is a folder")
    if path.exists() and (path.stat().st_size or begin):
        return
    if not begin:
        raise NoSuchBook(str(path))
    make_folder(path)
