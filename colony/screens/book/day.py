"""Today: what asks for a hand now, and every line opens what it is about."""

from collections.abc import Iterable
from datetime import date
from typing import Any, ClassVar

from textual.binding import Binding, BindingType
from textual.containers import Horizontal
from textual.widget import Widget

from colony.acts.book.backups import backup_state
from colony.acts.book.day import state_of_the_day
from colony.acts.pairings.to_check import pairings_to_check
from colony.acts.tanks.moves import list_moves
from colony.screens.book.day_lines import COLUMNS, NOTHING, DayLines, WhatNow
from colony.screens.frame.place import Place
from colony.screens.widgets.detail_pane import DetailPane
from colony.screens.widgets.entry_list import EntryList


class Today(Place):
    """What now: births, pups, widths, tanks, isolation, pairings."""

    HERE = "day"
    HELP: ClassVar[str | None] = (
        "Each line is one thing that asks for a hand. Enter opens it; a form begins with it. "
        "A danger stays until it is over or answered: y."
    )

    BINDINGS: ClassVar[list[BindingType]] = [Binding("y", "app.form('answer')", "Answer")]

    def __init__(self) -> None:
        super().__init__()
        self._now: WhatNow | None = None

    def body(self) -> Iterable[Widget]:
        """The list, and beside it more of the line that is looked at."""
        with Horizontal(classes="beside"):
            yield EntryList(COLUMNS, empty=NOTHING)
            yield DetailPane()

    def on_mount(self) -> None:
        """The list takes the keys."""
        self.query_one(EntryList).focus()

    def load(self) -> None:
        """Ask what needs a hand."""
        book_session = self.app.book_session
        self.ask(
            what_now,
            self._know,
            location=book_session.book.location,
            today=book_session.today,
        )

    def on_entry_list_highlighted(self, event: EntryList.Highlighted) -> None:
        """Say more of the line."""
        more = event.line.more if event.line else ""
        self.query_one(DetailPane).show(str(more or ""))

    def on_resize(self) -> None:
        """A higher screen shows more of each kind."""
        self._show()

    def _know(self, now: WhatNow) -> None:
        self._now = now
        self._show()

    def _show(self) -> None:
        if self._now is not None:
            lines = DayLines(self.app.book_session, self._now, self.size.height)
            self.query_one(EntryList).show(lines.entries())


def what_now(session: Any, *, location: str, today: date) -> WhatNow:  # noqa: ANN401 - an open session
    """Ask for everything that needs a hand today."""
    return WhatNow(
        state=state_of_the_day(session, today=today),
        moves=list_moves(session, today=today),
        unchecked=pairings_to_check(session, today=today),
        backup=backup_state(location),
    )
