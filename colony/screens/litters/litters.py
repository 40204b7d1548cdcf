"""Births: who is due, drawn on a line of weeks, and the litters that were born."""

from collections.abc import Iterable, Sequence
from typing import Any, ClassVar

from textual.binding import Binding, BindingType
from textual.containers import Horizontal
from textual.widget import Widget

from colony.acts.litters.due import DueLitter, due_litters
from colony.acts.litters.listing import LitterLine, list_litters
from colony.acts.litters.prepare import BirthPlan, prepare_birth
from colony.notation.cautions import CAUTIONS
from colony.screens.book.day_lines import due_in_words, due_when
from colony.screens.frame.about import About
from colony.screens.frame.dates import short_day
from colony.screens.frame.place import Place
from colony.screens.widgets.columns import Column
from colony.screens.widgets.detail_pane import DetailPane
from colony.screens.widgets.entry_list import Entry, EntryList, Heading, Line
from colony.screens.widgets.time_line import TimeLine

_MOST_TANKS = 3
"""Tanks that do not do are named up to this: beside a list there is little room."""


class Births(Place):
    """Due windows, the first due first; then litters, the youngest first."""

    HERE = "litters"
    HELP: ClassVar[str | None] = (
        "Each window runs from the earliest to the latest day; the full block is the likely one. "
        "b on a dam writes her birth down, n says how to prepare it."
    )

    BINDINGS: ClassVar[list[BindingType]] = [Binding("n", "prepare", "Prepare")]

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

    def action_prepare(self) -> None:
        """Say beside the list what the birth under the highlight asks for."""
        about = self.about
        if about is None or about.kind != "animal":
            self.app.say("A birth is prepared of a dam who is due: go to her line.", "hint")
            return
        self.ask(prepare_birth, self._show_plan, dam=about.key, today=self.app.book_session.today)

    def _show_plan(self, plan: BirthPlan) -> None:
        beside = self.query_one(DetailPane)
        if beside.size.width:
            beside.show(plan_in_words(plan))
            return
        # On a narrow screen there is no room beside the list.
        self.app.say(" ".join(f"{short_day(s.by)}: {s.what}." for s in plan.steps[1:]), "hint")

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


def plan_in_words(plan: BirthPlan) -> str:
    """What a birth asks for, a line a step, and the tanks that do not do."""
    head = f"{plan.dam}: {short_day(plan.earliest)} to {short_day(plan.latest)}"
    steps = [f"{'! ' if step.late else ''}{short_day(step.by)}: {step.what}" for step in plan.steps]
    others = [f"not {each.tank}: {each.against[0]}" for each in plan.others[:_MOST_TANKS]]
    return "\n\n".join([head, *steps, *others, CAUTIONS["pairing end"]])


def _births(session: Any, *, today: Any) -> tuple[list[DueLitter], list[LitterLine]]:  # noqa: ANN401 - an open session and a day
    return due_litters(session, today=today), list_litters(session)
