"""Today: what asks for a hand now, and every line opens what it is about."""

from collections.abc import Callable, Iterable
from dataclasses import replace
from datetime import date
from typing import Any, ClassVar

from textual.containers import Horizontal
from textual.widget import Widget

from colony.acts.day import due_soon, unmeasured_pups
from colony.acts.housing import tank_outlook
from colony.acts.pairing_checks import pairings_to_check
from colony.acts.ready import ready_pups
from colony.acts.tanks import list_tanks
from colony.acts.work import list_moves
from colony.screens.day_lines import COLUMNS, DayLines, WhatNow
from colony.screens.place import Place
from colony.screens.widgets.ledger import Ledger
from colony.screens.widgets.look import Look

AHEAD_WEEKS = 2
"""How far ahead a tank over its limit is news."""

Parts = dict[str, Any]
Question = Callable[..., Parts]


def _house(session: Any, *, today: date) -> Parts:  # noqa: ANN401 - an open session
    return {
        "tanks": list_tanks(session, today=today),
        "moves": list_moves(session, today=today),
        "unchecked": pairings_to_check(session, today=today),
    }


def _births(session: Any, *, today: date) -> Parts:  # noqa: ANN401 - the same
    return {"due": due_soon(session, today=today)}


def _pups(session: Any, *, today: date) -> Parts:  # noqa: ANN401 - the same
    return {
        "ready": ready_pups(session, today=today),
        "unmeasured": unmeasured_pups(session, today=today),
    }


def _ahead(session: Any, *, today: date) -> Parts:  # noqa: ANN401 - the same
    return {"ahead": tank_outlook(session, weeks=AHEAD_WEEKS, today=today)}


QUESTIONS: tuple[Question, ...] = (_house, _births, _pups, _ahead)
"""What is asked of the book for today, the quickest first."""


class Today(Place):
    """What now: births, pups, widths, tanks, isolation, pairings."""

    HERE = "day"
    HELP: ClassVar[str | None] = (
        "Each line is one thing that asks for a hand. Enter opens it; a slip begins with it."
    )

    def __init__(self) -> None:
        super().__init__()
        self._now = WhatNow()

    def body(self) -> Iterable[Widget]:
        """The list, and beside it more of the line that is looked at."""
        with Horizontal(classes="beside"):
            yield Ledger(COLUMNS, empty="Nothing asks for a hand today.")
            yield Look()

    def on_mount(self) -> None:
        """The list takes the keys."""
        self.query_one(Ledger).focus()

    def load(self) -> None:
        """Ask one question after the other, the quickest first; each answer is shown at once."""
        self._ask_next(list(QUESTIONS))

    def _ask_next(self, questions: list[Question]) -> None:
        if questions:
            first, *rest = questions
            self.ask(first, lambda parts: self._know(parts, rest), today=self.app.desk.today)

    def _know(self, parts: Parts, rest: list[Question]) -> None:
        self._now = replace(self._now, **parts)
        self._show()
        self._ask_next(rest)

    def on_ledger_looked(self, event: Ledger.Looked) -> None:
        """Say more of the line."""
        more = event.line.more if event.line else ""
        self.query_one(Look).show(str(more or ""))

    def on_resize(self) -> None:
        """A higher screen shows more of each kind."""
        self._show()

    def _show(self) -> None:
        lines = DayLines(self.app.desk, self._now, self.size.height)
        if self._now.tanks is not None:
            self.query_one(Ledger).show(lines.entries())


PLACE = Today
