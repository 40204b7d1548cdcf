"""Births: who is due, drawn on a line of weeks, and the litters that were born."""

from collections.abc import Iterable, Sequence
from typing import Any, ClassVar

from textual.containers import Horizontal
from textual.widget import Widget

from colony.acts.litters.due import DueLitter, due_litters
from colony.acts.litters.listing import LitterLine, list_litters
from colony.screens.book.day_lines import due_in_words, due_when
from colony.screens.frame.about import About
from colony.screens.frame.dates import short_day
from colony.screens.frame.place import Place
from colony.screens.widgets.columns import Column
from colony.screens.widgets.detail_pane import DetailPane
from colony.screens.widgets.entry_list import Entry, EntryList, Heading, Line
from colony.screens.widgets.time_line import TimeLine


class Births(Place):
    """Due windows, the first due first; then litters, the youngest first."""

    HERE = "litters"
    HELP: ClassVar[str | None] = (
        "Each window runs from the earliest to the latest day; the full block is the likely one. "
        "b on a dam writes her birth down."
    )

    def body(self) -> Iterable[Widget]:
        """One list, and more of the line beside it."""
        with Horizontal(classes="beside"):
            yield EntryList(
                (Column("", 10),), empty="No birth is expected and none is written down."
            )
            yield DetailPane()

    def on_mount(self) -> None:
        """The list takes the keys."""
        self.query_one(EntryList).focus()

    def load(self) -> None:
        """Ask for what is due and what was born."""
        self.ask(_births, self._show, today=self.app.book_session.today)

    def on_entry_list_highlighted(self, event: EntryList.Highlighted) -> None:
        """Say more of the line."""
        self.query_one(DetailPane).show(str((event.line and event.line.more) or ""))

    def _show(self, births: tuple[Sequence[DueLitter], Sequence[LitterLine]]) -> None:
        due, born = births
        line = TimeLine(self.app.book_session.today)
        entries: list[Entry] = [Heading(f"Expected ({len(due)})")]
        entries += [self._due(litter, line) for litter in due]
        entries.append(Heading(f"Born ({len(born)})"))
        entries += [self._born(litter) for litter in born]
        self.query_one(EntryList).show(entries if due or born else [], _columns(line))

    def _due(self, due: DueLitter, line: TimeLine) -> Line:
        late = due.state == "overdue"
        cells = (
            due.dam,
            due.state,
            line.window(due.earliest, due.likely, due.latest),
            due_when(due, self.app.book_session.today),
            due.tank or "-",
        )
        mark, tone = ("!", "wrong") if late else ("◄", "due")
        return Line(About("animal", due.dam, "F"), cells, mark, tone, more=due_in_words(due))

    def _born(self, litter: LitterLine) -> Line:
        dead = f", {litter.dead} dead" if litter.dead else ""
        words = (
            f"{litter.live} live{dead}, {litter.present} here; by {', '.join(litter.sires) or '?'}"
        )
        cells = (litter.dam, litter.litter, words, short_day(litter.born), litter.tank or "-")
        return Line(
            About("litter", litter.litter),
            cells,
            "■",
            "",
            more=f"Litter {litter.litter}\n\n{words}",
        )


def _columns(line: TimeLine) -> tuple[Column, ...]:
    return (
        Column("Dam", 12),
        Column("State", 9),
        Column(line.axis(), 26, grows=True, style="$secondary"),
        Column("Likely", 16),
        Column("Tank", 5),
    )


def _births(session: Any, *, today: Any) -> tuple[list[DueLitter], list[LitterLine]]:  # noqa: ANN401 - an open session and a day
    return due_litters(session, today=today), list_litters(session)
