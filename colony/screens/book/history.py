"""Log: what was written, the newest first; any act can be taken back."""

from collections.abc import Iterable, Sequence
from typing import ClassVar

from textual.binding import Binding, BindingType
from textual.containers import Horizontal
from textual.widget import Widget

from colony.acts.book.history import HistoryLine, list_history
from colony.screens.book.undo import take_back
from colony.screens.frame.about import About
from colony.screens.frame.place import Place
from colony.screens.widgets.columns import Column
from colony.screens.widgets.detail_pane import DetailPane
from colony.screens.widgets.entry_list import EntryList, Line

PAGE_ACTS = 60

COLUMNS = (
    Column("Act", 6, right=True),
    Column("When", 16),
    Column("What", 24, grows=True),
    Column("Kind", 16, from_screen=110),
    Column("Who", 8),
)


class Log(Place):
    """The journal of the book."""

    HERE = "history"
    HELP: ClassVar[str | None] = (
        "u takes your last act back, wherever you are; z takes back the act under the highlight, "
        "or an undo itself. What something later builds on is refused, and the later act named."
    )
    BINDINGS: ClassVar[list[BindingType]] = [Binding("z", "undo_this", "Undo this one")]

    def __init__(self) -> None:
        super().__init__()
        self._most = PAGE_ACTS
        self._arrived = False

    def body(self) -> Iterable[Widget]:
        """The acts, and one of them in full beside."""
        with Horizontal(classes="beside"):
            yield EntryList(COLUMNS, empty="Nothing was written yet.")
            yield DetailPane()

    def on_mount(self) -> None:
        """The list takes the keys."""
        self.query_one(EntryList).focus()

    def arrive(self) -> None:
        """Begin with the newest act: z must not take back what one looked at long ago."""
        self._arrived = True
        self.query_one(EntryList).action_first()

    @property
    def about(self) -> About | None:
        """An act is nothing that a form could begin with."""
        return None

    def load(self) -> None:
        """Ask for the newest acts."""
        self.ask(list_history, self._show, most=self._most)

    def on_entry_list_near_end(self, _: EntryList.NearEnd) -> None:
        """Ask for older acts too."""
        if len(self.query_one(EntryList).entries) == self._most:
            self._most += PAGE_ACTS
            self.load()

    def on_entry_list_highlighted(self, event: EntryList.Highlighted) -> None:
        """Show the act in full."""
        act = event.line.more if event.line else None
        self.query_one(DetailPane).show(_more(act) if isinstance(act, HistoryLine) else "")

    def on_entry_list_opened(self, event: EntryList.Opened) -> None:
        """Say the whole sentence of the act, for a narrow screen."""
        event.stop()
        if isinstance(event.line.more, HistoryLine):
            self.app.say(event.line.more.summary)

    async def action_undo_this(self) -> None:
        """Take the highlighted act back."""
        line = self.query_one(EntryList).line
        if line is not None:
            await take_back(self.app, int(line.about.key))

    def _show(self, acts: Sequence[HistoryLine]) -> None:
        entries = self.query_one(EntryList)
        entries.show([_line(act) for act in acts])
        if self._arrived:
            self._arrived = False
            entries.action_first()


def _line(act: HistoryLine) -> Line:
    when = act.at.astimezone()
    what = act.summary if act.undone_by is None else f"(undone) {act.summary}"
    cells = (str(act.number), f"{when:%Y-%m-%d %H:%M}", what, act.act, act.who)
    undone = act.undone_by is not None
    about = About("act", str(act.number))
    return Line(about, cells, "○" if undone else "■", "quiet" if undone else "", more=act)


def _more(act: HistoryLine) -> str:
    undone = f"\n\n○ undone by act {act.undone_by}" if act.undone_by else ""
    when = act.at.astimezone()
    return f"Act {act.number}: {act.act}\n{act.who}, {when:%Y-%m-%d %H:%M}\n\n{act.summary}{undone}"
