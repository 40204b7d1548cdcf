"""The book as the screens use it: read, act, and notice that somebody else wrote in it."""

from collections.abc import Callable
from contextlib import suppress
from dataclasses import dataclass, field
from datetime import date
from pathlib import Path
from threading import Lock, Thread
from typing import Any, TypeVar

from colony.acts.book.news import News, news_since
from colony.notation.house import show_length, use_units
from colony.refusals.base import Refusal
from colony.refusals.books import BookVanished
from colony.store.backups.daily import backup_to_try, try_backup
from colony.store.book import Book, find_again
from colony.store.journal.entries import Mark, latest
from colony.store.settings import BookSettings, read_settings

T = TypeVar("T")

PATIENCE_SECONDS = 1.0
"""How long the screens stand still for somebody else's act; then it is said, and nothing is lost."""


def todays_date() -> date:
    """The day it is in the house."""
    return date.today()  # noqa: DTZ011 - the breeder's own calendar day, in the house's time zone


@dataclass
class BookSession:
    """One open book, the day it is, and how the breeder writes a length.

    `mark` is where the book stood when this book_session last knew all of it.
    """

    book: Book
    clock: Callable[[], date] = todays_date
    settings: BookSettings = field(default_factory=BookSettings)
    mark: Mark = field(default_factory=lambda: Mark(0, ""))
    concern: str = ""
    """What a person should know of the book, and has not been told yet."""
    _turn: Lock = field(default_factory=Lock, repr=False)

    @property
    def today(self) -> date:
        """The day it is."""
        return self.clock()

    def begin(self) -> None:
        """Read what every screen needs: the settings, and where the book stands."""
        with self.book.reading() as session:
            self.settings = read_settings(session)
            self.mark = latest(session)
        use_units(self.settings.units)

    def read(self, question: Callable[..., T], **facts: Any) -> T:  # noqa: ANN401 - facts of any act
        """Ask the book one question."""
        with self.book.reading() as session:
            return question(session, **facts)

    def act(
        self,
        name: str,
        act: Callable[..., T],
        *,
        seen: Mark | None = None,
        **facts: Any,  # noqa: ANN401 - the same
    ) -> T:
        """Do one act: one transaction and one journal row, or nothing at all.

        What somebody else changed since the mark `seen` is refused, not overwritten.
        """
        with self._turn:
            with self.book.act(name, seen=seen, wait_seconds=PATIENCE_SECONDS) as session:
                done = act(session, **facts)
            with suppress(Refusal):  # the act is written, even if the book went away behind it
                self.begin()
        if (backup := backup_to_try(session)) is not None:
            Thread(target=self._try, args=(backup,), daemon=True).start()
        return done

    def _try(self, backup: Path) -> None:
        """Restore the newest backup as a test, once a week and beside everything else."""
        self.concern = try_backup(backup) or ""

    def news(self) -> News | None:
        """What others wrote since this book_session last knew; from then on it is known.

        A book whose file went and came back is found again here.

        Raises
        ------
        BookVanished, BookNotReachable
            It is away.
        """
        with self._turn:
            try:
                news = self.read(news_since, mark=self.mark)
            except BookVanished:
                self.book = find_again(self.book)
                news = self.read(news_since, mark=self.mark)
            if news is not None:
                self.begin()
        return news

    def length(self, length_mm: float | None) -> str:
        """Write a length in the book's unit."""
        return show_length(length_mm)
