"""Partners of one animal: ranked by kinship, with reasons, and who is left out and why."""

from collections.abc import Iterable
from datetime import date
from typing import Any, ClassVar

from textual.binding import Binding, BindingType
from textual.containers import Horizontal
from textual.widget import Widget
from textual.widgets import Static

from colony.acts.animals.search import ListedAnimal, who_is
from colony.acts.pairings.partners import LeftOutLine, PartnerLine, Picked, pick_partners
from colony.screens.frame.about import About
from colony.screens.frame.page import Page
from colony.screens.widgets.bars import bar
from colony.screens.widgets.columns import Column
from colony.screens.widgets.detail_pane import DetailPane
from colony.screens.widgets.entry_list import Entry, EntryList, Heading, Line

FULL = 0.25
"""The kinship of full sibs fills the bar."""

COLUMNS = (
    Column("Partner", 12),
    Column("F of pups", 9, right=True),
    Column("kinship, to full sibs", 22, style="$secondary"),
    Column("Mean kinship", 12, right=True),
    Column("Tank", 5),
    Column("", 0, grows=True),
)


class Partners(Page):
    """The ranking of an animal's partners."""

    HERE = "pairings"
    HELP: ClassVar[str | None] = (
        "The least related first: F is what their pups would have. j joins the animal with the "
        "partner under the highlight; Enter opens that partner's page."
    )
    BINDINGS: ClassVar[list[BindingType]] = [Binding("j", "join", "Join these two")]

    def __init__(self, subject: About) -> None:
        super().__init__(subject)
        self._asking: ListedAnimal | None = None

    def body(self) -> Iterable[Widget]:
        """A line on the animal itself, then the ranking."""
        yield Static("", id="page-head", markup=False)
        with Horizontal(classes="beside"):
            yield EntryList(COLUMNS, empty="ranking partners")
            yield DetailPane()

    def on_mount(self) -> None:
        """The list takes the keys."""
        self.query_one(EntryList).focus()

    def load(self) -> None:
        """Rank."""
        self.query_one("#page-head", Static).update(
            f"Partners of {self.subject.key}: ranking, Esc stops"
        )
        self.ask(_ranked, self._show, tag=self.subject.key, today=self.app.book_session.today)

    def on_entry_list_highlighted(self, event: EntryList.Highlighted) -> None:
        """Give the reasons."""
        self.query_one(DetailPane).show(str((event.line and event.line.more) or ""))

    async def action_join(self) -> None:
        """Bring the joining form with both."""
        line = self.query_one(EntryList).line
        if line is None or self._asking is None:
            return
        pair = self._asking.tag, line.about.tag
        dam, sire = pair if self._asking.sex == "F" else pair[::-1]
        await self.app.action_form("join", dam=dam, sires=sire)

    def _show(self, ranked: tuple[Picked, ListedAnimal]) -> None:
        picked, self._asking = ranked
        cautions = f"  ! {'; '.join(picked.cautions)}" if picked.cautions else ""
        head = f"Partners of {picked.tag}: {len(picked.partners)} may be paired{cautions}"
        self.query_one("#page-head", Static).update(head)
        entries: list[Entry] = [_partner(partner) for partner in picked.partners]
        if picked.left_out:
            entries.append(Heading(f"Left out ({len(picked.left_out)})"))
        entries += [_left_out(animal) for animal in picked.left_out]
        self.query_one(EntryList).show(entries)


def _ranked(session: Any, *, tag: str, today: date) -> tuple[Picked, ListedAnimal]:  # noqa: ANN401 - an open session
    return pick_partners(session, tag=tag, today=today), who_is(session, tag=tag, today=today)


def _partner(partner: PartnerLine) -> Line:
    more = "\n".join(
        [
            f"{partner.tag}",
            "",
            f"F of their pups  {partner.expected_inbreeding:.4f}",
            f"kinship          {partner.kinship:.4f}",
            f"mean kinship     {partner.mean_kinship:.4f}",
            "",
            *(partner.reasons or ["nothing speaks against it"]),
        ]
    )
    cells = (
        partner.tag,
        f"{partner.expected_inbreeding:.4f}",
        lambda width: bar(partner.kinship / FULL, width),
        f"{partner.mean_kinship:.4f}",
        partner.tank or "-",
        "; ".join(partner.reasons),
    )
    return Line(About("animal", partner.tag), cells, "●", "ready", more=more)


def _left_out(animal: LeftOutLine) -> Line:
    cells = (animal.tag, "; ".join(reason.partition(": ")[2] for reason in animal.reasons))
    more = f"{animal.tag} is left out\n\n" + "\n".join(f"! {reason}" for reason in animal.reasons)
    return Line(About("animal", animal.tag), cells, "○", "quiet", more=more)
