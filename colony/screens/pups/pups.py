"""Grow-out: pups by readiness, the gates of each, and widths one after another."""

from collections.abc import Iterable, Sequence
from typing import ClassVar

from textual.binding import Binding, BindingType
from textual.containers import Horizontal
from textual.timer import Timer
from textual.widget import Widget

from colony.acts.pups.ready import ready_pups
from colony.notation.days import show_span
from colony.notation.tags import tag_order
from colony.planning.pups.readiness import Readiness
from colony.screens.book.day_lines import gates_in_words
from colony.screens.frame.about import About
from colony.screens.frame.dates import short_day
from colony.screens.frame.place import Place
from colony.screens.pups.curves import curve_of
from colony.screens.widgets.columns import Column
from colony.screens.widgets.detail_pane import DetailPane
from colony.screens.widgets.entry_list import Entry, EntryList, Heading, Line

PAUSE_SECONDS = 0.3
"""How long a pup is looked at before its curve is drawn."""

COLUMNS = (
    Column("Pup", 12),
    Column("Species", 9),
    Column("Sex", 3),
    Column("Age", 5, right=True),
    Column("Width", 8, right=True),
    Column("Ready, or when and why", 27, grows=True),
    Column("Tank", 5),
)


class GrowOut(Place):
    """The ready first, then the others by the day on which they will be."""

    HERE = "pups"
    HELP: ClassVar[str | None] = (
        "Ready pups stand first. w measures from the highlighted pup on, one Enter a pup; "
        "Space marks; of what is marked m moves it, g shows the kinship, K keeps it for an order."
    )
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("space", "mark", "Mark"),
        Binding("o", "order", "Order"),
        Binding("f", "app.form('fed')", "Fed"),
        Binding("g", "kin", "Kin of marked"),
        Binding("K", "app.form('keep')", "Keep for an order"),
    ]

    def __init__(self) -> None:
        super().__init__()
        self._pups: Sequence[Readiness] = ()
        self._by_tank = False
        self._pause: Timer | None = None

    def body(self) -> Iterable[Widget]:
        """The pups, and the gates of one beside them."""
        with Horizontal(classes="beside"):
            yield EntryList(COLUMNS, empty="No pup is growing out.")
            yield DetailPane()

    def on_mount(self) -> None:
        """The list takes the keys."""
        self.query_one(EntryList).focus()

    @property
    def queue(self) -> list[str]:
        """A round with the tray goes on from tank to tank."""
        return self.query_one(EntryList).queue_to_the_end

    def load(self) -> None:
        """Try every pup at the gates."""
        self.ask(ready_pups, self._know, everybody=True, today=self.app.book_session.today)

    def action_mark(self) -> None:
        """Mark a pup."""
        self.query_one(EntryList).toggle_mark()

    def action_order(self) -> None:
        """Order by readiness, or by tank for the round with the tray."""
        self._by_tank = not self._by_tank
        self._show()

    def on_entry_list_highlighted(self, event: EntryList.Highlighted) -> None:
        """Show the gates of the pup."""
        pup = event.line.more if event.line else None
        self.query_one(DetailPane).show(_more(pup) if isinstance(pup, Readiness) else "")
        if self._pause is not None:
            self._pause.stop()
        if isinstance(pup, Readiness):
            self._pause = self.set_timer(PAUSE_SECONDS, lambda: self._ask_curve(pup))

    def _ask_curve(self, pup: Readiness) -> None:
        def show(curve: str) -> None:
            line = self.query_one(EntryList).line
            if line and line.about.key == pup.tag:
                self.query_one(DetailPane).show(f"{_more(pup)}\n\n{curve}")

        if self.query_one(DetailPane).display:
            self.ask(curve_of, show, tag=pup.tag, today=self.app.book_session.today)

    def _know(self, pups: Sequence[Readiness]) -> None:
        self._pups = pups
        self._show()

    def _show(self) -> None:
        groups: dict[str, list[Readiness]] = {}
        for pup in self._pups:
            state = "Ready for sale" if pup.ready else "Growing"
            title = f"Tank {pup.tank or 'none'}" if self._by_tank else state
            groups.setdefault(title, []).append(pup)
        order = sorted(groups, key=tag_order) if self._by_tank else list(groups)
        entries: list[Entry] = []
        for title in order:
            entries.append(Heading(f"{title} ({len(groups[title])})"))
            entries += [self._line(pup) for pup in groups[title]]
        self.query_one(EntryList).show(entries)

    def _line(self, pup: Readiness) -> Line:
        when = short_day(pup.expected_ready) if pup.expected_ready else "open"
        cells = (
            pup.tag,
            pup.species or "-",
            pup.sex,
            "-" if pup.age_days is None else show_span(pup.age_days),
            self.app.book_session.length(pup.disc_width_mm),
            _state(pup, when),
            pup.tank or "-",
        )
        mark, tone = ("●", "ready") if pup.ready else ("○", "")
        return Line(About("animal", pup.tag, pup.sex), cells, mark, tone, more=pup)


def _state(pup: Readiness, when: str) -> str:
    """Whether it may go today, and if not when and what it waits on; for whom it is kept."""
    if pup.reserved_for:
        others = [each for each in pup.lacks if each != "reserved"]
        first = "ready" if not others else f"{when}, {', '.join(others)}"
        return f"for {pup.reserved_for}: {first}"
    return "ready" if pup.ready else f"{when}: {', '.join(pup.lacks)}"


def _more(pup: Readiness) -> str:
    spread = f"between {pup.ready_low or '?'} and {pup.ready_high or '?'}" if not pup.ready else ""
    return f"{pup.tag}, litter {pup.litter}\n\n{gates_in_words(pup)}\n\n{spread}"
