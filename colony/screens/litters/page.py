"""One litter: its parents, the inbreeding of its pups, and where each pup is."""

from collections.abc import Iterable
from typing import ClassVar

from textual.binding import Binding, BindingType
from textual.widget import Widget
from textual.widgets import Static

from colony.acts.litters.listing import LitterDetails as Litter
from colony.acts.litters.listing import PupLine, show_litter
from colony.screens.frame.about import About
from colony.screens.frame.dates import short_day
from colony.screens.frame.page import Page
from colony.screens.widgets.columns import Column
from colony.screens.widgets.entry_list import EntryList, Line

COLUMNS = (
    Column("Pup", 14),
    Column("Sex", 3),
    Column("Width", 8, right=True),
    Column("Tank", 8),
    Column("Status", 9),
    Column("Sire", 20, grows=True),
)


class LitterPage(Page):
    """The page of a litter."""

    HERE = "litters"
    HELP: ClassVar[str | None] = (
        "Enter opens a pup; w measures them one after another; Space marks, m moves, g shows the "
        "kinship of what is marked."
    )
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("space", "mark", "Mark"),
        Binding("g", "kin", "Kin of marked", show=False),
    ]

    def body(self) -> Iterable[Widget]:
        """What is known of the litter, and its pups."""
        yield Static("", id="page-head", markup=False)
        yield EntryList(COLUMNS, empty="No pup of this litter lived.")

    @property
    def about(self) -> About | None:
        """The pup under the highlight."""
        line = self.query_one(EntryList).line
        return line.about if line else self.subject

    def on_mount(self) -> None:
        """The list takes the keys."""
        self.query_one(EntryList).focus()

    def load(self) -> None:
        """Ask for the litter."""
        self.ask(show_litter, self._show, code=self.subject.key, today=self.app.book_session.today)

    def action_mark(self) -> None:
        """Mark a pup."""
        self.query_one(EntryList).toggle_mark()

    def _show(self, litter: Litter) -> None:
        self.query_one("#page-head", Static).update(_head(litter))
        self.query_one(EntryList).show([self._line(pup) for pup in litter.pups])

    def _line(self, pup: PupLine) -> Line:
        width = self.app.book_session.length(pup.disc_width_mm)
        cells = (pup.tag, pup.sex, width, pup.tank or "-", pup.status, ", ".join(pup.sires) or "?")
        here = pup.status == "present"
        return Line(
            About("animal", pup.tag, pup.sex), cells, "●" if here else "○", "" if here else "quiet"
        )


def _head(litter: Litter) -> str:
    sires = ", ".join(litter.sires) or "unknown"
    several = " (pups may differ)" if litter.pups_may_differ else ""
    spread = (
        f", between {litter.inbreeding_low:.4f} and {litter.inbreeding_high:.4f}"
        if litter.inbreeding_low != litter.inbreeding_high
        else ""
    )
    return (
        f"Litter {litter.litter}, born {short_day(litter.born)}: "
        f"{litter.live} live, {litter.dead} dead\n"
        f"dam {litter.dam}, sire {sires}{several}\n"
        f"F of its pups {litter.inbreeding:.4f}{spread}; "
        f"{litter.completeness:.1f} generations known\n{litter.note or ''}"
    ).rstrip()
