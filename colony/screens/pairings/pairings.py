"""Pairs: who is with whom, and the way to who should be."""

from collections.abc import Iterable, Sequence
from typing import ClassVar

from textual.binding import Binding, BindingType
from textual.containers import Horizontal
from textual.widget import Widget

from colony.acts.pairings.listing import PairingLine, list_pairings
from colony.notation.days import show_span
from colony.screens.frame.about import About
from colony.screens.frame.dates import short_day
from colony.screens.frame.place import Place
from colony.screens.widgets.columns import Column
from colony.screens.widgets.detail_pane import DetailPane
from colony.screens.widgets.entry_list import EntryList, Line

COLUMNS = (
    Column("Dam", 12),
    Column("Sires", 12, grows=True),
    Column("Since", 11),
    Column("For", 4, right=True),
    Column("Last sign", 21),
    Column("Tank", 5),
)

MARKS = {"running": "●", "planned": "◌", "ended": "○"}
"""Together, not together yet, and no more."""


class Pairs(Place):
    """Every pairing that runs; those that ended when asked."""

    HERE = "pairings"
    HELP: ClassVar[str | None] = (
        "p ranks the partners of the dam; j joins, x parts, s writes a mating sign, k a check."
    )
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("j", "app.form('join')", "Join"),
        Binding("x", "app.form('part')", "Part"),
        Binding("a", "all", "Ended too"),
        Binding("g", "plan", "Plan for all"),
    ]

    def __init__(self) -> None:
        super().__init__()
        self._all = False

    def body(self) -> Iterable[Widget]:
        """The pairings, and beside them the signs."""
        with Horizontal(classes="beside"):
            yield EntryList(COLUMNS, empty="No dam is with a sire: j joins two, p ranks partners.")
            yield DetailPane()

    def on_mount(self) -> None:
        """The list takes the keys."""
        self.query_one(EntryList).focus()

    def load(self) -> None:
        """Ask who is with whom."""
        self.ask(list_pairings, self._show, all_=self._all, today=self.app.book_session.today)

    def action_all(self) -> None:
        """Show the pairings that ended too, or not."""
        self._all = not self._all
        self.load()

    def action_plan(self) -> None:
        """Open the plan for the whole colony."""
        self.app.open_about(About("plan", ""))

    def on_entry_list_highlighted(self, event: EntryList.Highlighted) -> None:
        """List the signs of the pairing."""
        self.query_one(DetailPane).show(str((event.line and event.line.more) or ""))

    def _show(self, pairings: Sequence[PairingLine]) -> None:
        self.query_one(EntryList).show([self._line(pairing) for pairing in pairings])

    def _line(self, pairing: PairingLine) -> Line:
        days = ((pairing.ended or self.app.book_session.today) - pairing.started).days
        signs = pairing.signs[-1] if pairing.signs else "none"
        since = short_day(pairing.started)
        more = "\n".join(
            [
                f"{pairing.dam} with {', '.join(pairing.sires)}",
                f"{'planned' if pairing.state == 'planned' else 'since'} {since}",
                "",
                *(pairing.signs or ["no sign seen"]),
            ]
        )
        return Line(
            About("animal", pairing.dam, "F"),
            (
                pairing.dam,
                ", ".join(pairing.sires),
                since,
                show_span(days),
                signs,
                pairing.tank or "-",
            ),
            MARKS[pairing.state],
            "water" if pairing.state == "running" else "quiet",
            more=more,
        )
