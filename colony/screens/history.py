"""Log: what was written, the newest first, and taking the last act back."""

from collections.abc import Iterable

from textual.widget import Widget

from colony.screens.place import Place
from colony.screens.widgets.columns import Column
from colony.screens.widgets.ledger import Ledger

COLUMNS = (
    Column("When", 16),
    Column("What", 40, grows=True),
    Column("Act", 16, from_screen=90),
    Column("Who", 10),
)


class Log(Place):
    """The journal of the book."""

    HERE = "history"

    def body(self) -> Iterable[Widget]:
        """The acts."""
        yield Ledger(COLUMNS, empty="Nothing was written yet.")

    def on_mount(self) -> None:
        """The list takes the keys."""
        self.query_one(Ledger).focus()


PLACE = Log
