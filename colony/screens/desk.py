"""The book as the screens use it: read, act, and notice that somebody else wrote in it."""

from collections.abc import Callable
from dataclasses import dataclass, field
from datetime import date
from typing import Any, TypeVar

from colony.acts.watch import NewestAct, newest_act
from colony.notation.measures import show_length
from colony.store.book import Book
from colony.store.settings import BookSettings, read_settings

T = TypeVar("T")


def todays_date() -> date:
    """The day it is in the house."""
    return date.today()  # noqa: DTZ011 - the breeder's own calendar day, in the house's time zone


@dataclass
class Desk:
    """One open book, the day it is, and how the breeder writes a length."""

    book: Book
    clock: Callable[[], date] = todays_date
    settings: BookSettings = field(default_factory=BookSettings)
    seen: int = 0

    @property
    def today(self) -> date:
        """The day it is."""
        return self.clock()

    def begin(self) -> None:
        """Read what every screen needs: the settings, and how far the journal goes."""
        with self.book.reading() as session:
            self.settings = read_settings(session)
            newest = newest_act(session)
        self.seen = newest.number if newest else 0

    def read(self, question: Callable[..., T], **facts: Any) -> T:  # noqa: ANN401 - facts of any act
        """Ask the book one question."""
        with self.book.reading() as session:
            return question(session, **facts)

    def act(self, name: str, act: Callable[..., T], **facts: Any) -> T:  # noqa: ANN401 - the same
        """Do one act: one transaction and one journal row, or nothing at all."""
        with self.book.act(name) as session:
            done = act(session, **facts)
        self.begin()
        return done

    def changed_elsewhere(self) -> NewestAct | None:
        """The newest act, if it is one that this desk did not do; then it counts as seen."""
        newest = self.read(newest_act)
        if newest is None or newest.number == self.seen:
            return None
        self.begin()
        return newest

    def length(self, length_mm: float | None) -> str:
        """Write a length in the book's unit."""
        return show_length(length_mm, self.settings.length_unit)
