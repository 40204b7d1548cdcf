"""Today: what asks for a hand now, and every line opens what it is about."""

from collections.abc import Iterable, Sequence
from typing import Any, ClassVar

from textual.containers import Horizontal
from textual.widget import Widget

from colony.acts.day import State, state_of_the_day
from colony.acts.pairing_checks import Unchecked, pairings_to_check
from colony.screens.day_lines import COLUMNS, DayLines
from colony.screens.place import Place
from colony.screens.widgets.ledger import Ledger
from colony.screens.widgets.look import Look


class Today(Place):
    """What now: births, pups, widths, tanks, isolation, pairings."""

    HERE = "day"
    HELP: ClassVar[str | None] = (
        "Each line is one thing that asks for a hand. Enter opens it; a slip begins with it."
    )

    def body(self) -> Iterable[Widget]:
        """The list, and beside it more of the line that is looked at."""
        with Horizontal(classes="beside"):
            yield Ledger(COLUMNS, empty="Nothing asks for a hand today.")
            yield Look()

    def on_mount(self) -> None:
        """The list takes the keys."""
        self.query_one(Ledger).focus()

    def load(self) -> None:
        """Ask for the state of the day."""
        self.ask(_what_now, self._show, today=self.app.desk.today)

    def on_ledger_looked(self, event: Ledger.Looked) -> None:
        """Say more of the line."""
        more = event.line.more if event.line else ""
        self.query_one(Look).show(str(more or ""))

    def _show(self, now: tuple[State, Sequence[Unchecked]]) -> None:
        lines = DayLines(self.app.desk, *now, rows=self.size.height)
        self.query_one(Ledger).show(lines.entries())


def _what_now(session: Any, **facts: Any) -> tuple[State, Sequence[Unchecked]]:  # noqa: ANN401 - an open session
    return state_of_the_day(session, **facts), pairings_to_check(session, **facts)


PLACE = Today
