"""The fewest moves that keep every limit, week by week; accepted, they become a work list."""

from collections.abc import Iterable
from typing import Any, ClassVar

from textual.binding import Binding, BindingType
from textual.containers import Horizontal
from textual.widget import Widget
from textual.widgets import Static

from colony.acts.tanks.outlook import accept_plan, plan_tanks
from colony.planning.tanks.moves import Move, WeekPlan
from colony.planning.tanks.plan import HousingPlan
from colony.screens.frame.about import About
from colony.screens.frame.dates import short_day
from colony.screens.frame.outcome import attempt
from colony.screens.frame.page import Page
from colony.screens.widgets.columns import Column
from colony.screens.widgets.detail_pane import DetailPane
from colony.screens.widgets.entry_list import Entry, EntryList, Heading, Line

WEEKS = 4

COLUMNS = (
    Column("Animal", 16),
    Column("From", 6),
    Column("To", 6),
    Column("By", 11),
    Column("Why", 30, grows=True),
)


class MovePlan(Page):
    """The plan of moves; nothing moves by itself."""

    HERE = "tanks"
    HELP: ClassVar[str | None] = (
        "y puts the moves of this week on the work list of Today; nothing moves by itself. "
        "Esc stops the planning."
    )
    BINDINGS: ClassVar[list[BindingType]] = [Binding("y", "accept", "Put on the work list")]

    def __init__(self, subject: About) -> None:
        super().__init__(subject)
        self._plan: HousingPlan | None = None

    def body(self) -> Iterable[Widget]:
        """A line on the plan, then its moves."""
        yield Static("", id="page-head", markup=False)
        with Horizontal(classes="beside"):
            yield EntryList(COLUMNS, empty="No move is needed.")
            yield DetailPane()

    def on_mount(self) -> None:
        """The list takes the keys."""
        self.query_one(EntryList).focus()

    def load(self) -> None:
        """Plan; anew after each move, for the plan starts from where everybody is now."""
        self._plan = None
        self.query_one("#page-head", Static).update("Planning moves; Esc stops.")
        self.ask(plan_tanks, self._show, weeks=WEEKS, today=self.app.book_session.today)

    def on_entry_list_highlighted(self, event: EntryList.Highlighted) -> None:
        """Give the whole reason."""
        self.query_one(DetailPane).show(str((event.line and event.line.more) or ""))

    def action_accept(self) -> None:
        """Put the first week on the work list."""
        if self._plan is None:
            return
        book_session = self.app.book_session
        facts: dict[str, Any] = {"plan": self._plan, "today": book_session.today}
        done = attempt(lambda: book_session.act("tank plan", accept_plan, **facts))
        if done.answer is None:
            self.app.say(done.problem, "refused")
        else:
            self.app.show_written(f"{len(done.answer)} moves are on the work list.")

    def _show(self, plan: HousingPlan) -> None:
        self._plan = plan
        moves = sum(len(week.moves) for week in plan.weeks)
        caution = "▲ Rigid container, not a net; the sting is venomous."
        head = f"{moves} moves in {len(plan.weeks)} weeks keep every limit. {caution}"
        self.query_one("#page-head", Static).update(head)
        self.query_one(EntryList).show([entry for week in plan.weeks for entry in _week(week)])


def _week(week: WeekPlan) -> Iterable[Entry]:
    if week.impossible:
        yield Heading(f"Week of {short_day(week.begins)}: no arrangement keeps every limit")
    elif week.moves:
        proof = "fewest proved" if week.optimal else f"within {week.gap:.0%} of the fewest"
        yield Heading(f"Week of {short_day(week.begins)} ({len(week.moves)}, {proof})")
    yield from (_line(move) for move in week.moves)


def _line(move: Move) -> Line:
    cells = (move.tag, move.from_tank or "-", move.to_tank, short_day(move.by), move.why)
    more = f"{move.tag}: {move.from_tank or 'nowhere'} to {move.to_tank}\n\n{move.why}"
    initial = {"tags": move.tag, "tank": move.to_tank}
    return Line(About("animal", move.tag), cells, "→", "due", more=more, initial=initial)
