"""Round: today's work in walking order, ticked off by one key, a tank or a system at a time."""

from collections.abc import Iterable, Sequence
from datetime import date
from itertools import groupby
from typing import Any, ClassVar

from textual.binding import Binding, BindingType
from textual.widget import Widget

from colony.acts.rhythms import begin_round
from colony.acts.round import tick
from colony.acts.work_today import WorkLine, todays_round
from colony.screens.about import About
from colony.screens.place import Place
from colony.screens.refused import tried
from colony.screens.when import short_day
from colony.screens.widgets.columns import Column
from colony.screens.widgets.ledger import Entry, Heading, Ledger, Line

COLUMNS = (
    Column("Where", 12),
    Column("Task", 18, grows=True),
    Column("Today", 8),
    Column("State", 18),
    Column("Last done", 12),
)

NONE = "No task has a rhythm yet: i begins with the usual ones (common practice, no source)."


class Round(Place):
    """The work of the day; isolated water comes last, with its own net and tools."""

    HERE = "round"
    HELP: ClassVar[str | None] = (
        "Space ticks the work under the highlight off, a all work at that place, A all work of "
        "its system. z skips it with a reason. Clean water comes before isolated."
    )
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("space", "tick", "Done"),
        Binding("a", "tick_place", "All here"),
        Binding("A", "tick_system", "Whole system"),
        Binding("z", "app.slip('skip')", "Skip"),
        Binding("i", "begin", "Usual rhythms", show=False),
    ]

    def body(self) -> Iterable[Widget]:
        """The work, system by system."""
        yield Ledger(COLUMNS, empty=NONE)

    def on_mount(self) -> None:
        """The list takes the keys."""
        self.query_one(Ledger).focus()

    def load(self) -> None:
        """Ask for today's work."""
        self.ask(todays_round, self._show, today=self.app.desk.today)

    def action_begin(self) -> None:
        """Begin the round with the usual rhythms."""
        done = tried(
            lambda: self.app.desk.act("round begin", begin_round, today=self.app.desk.today)
        )
        if done.answer is None:
            self.app.say(done.problem, "refused")
        else:
            self.app.wrote("The round begins with the usual rhythms.")

    def action_tick(self) -> None:
        """Tick one piece of work off."""
        if (work := self._work()) is not None:
            self._tick([work])

    def action_tick_place(self) -> None:
        """Tick off all that is open at the place."""
        if (work := self._work()) is not None:
            self._tick([one for one in self._open() if one.place == work.place])

    def action_tick_system(self) -> None:
        """Tick off all that is open at every place of the system."""
        if (work := self._work()) is not None:
            self._tick([one for one in self._open() if one.system == work.system])

    def _work(self) -> WorkLine | None:
        line = self.query_one(Ledger).line
        return line.more if line and isinstance(line.more, WorkLine) else None

    def _open(self) -> list[WorkLine]:
        lines = [one.more for one in self.query_one(Ledger).entries if isinstance(one, Line)]
        return [one for one in lines if isinstance(one, WorkLine) and one.is_open]

    def _tick(self, works: Sequence[WorkLine]) -> None:
        desk = self.app.desk
        done = tried(lambda: desk.act("round done", _tick_off, works=works, today=desk.today))
        if done.answer is None:
            self.app.say(done.problem, "refused")
            return
        self.query_one(Ledger).action_cursor_down()
        places = ", ".join(dict.fromkeys(one.place for one in works))
        what = works[0].task if len(works) == 1 else f"{len(works)} tasks"
        self.app.wrote(f"{what} done: {places}.")

    def _show(self, works: Sequence[WorkLine]) -> None:
        entries: list[Entry] = []
        for (system, water), here in groupby(works, key=lambda one: (one.system, one.water)):
            lines = [_line(one) for one in here]
            tools = "" if water == "clean" else ", own net and tools"
            entries += [Heading(f"{system}, {water} water{tools}"), *lines]
        self.query_one(Ledger).show(entries)


def _tick_off(session: Any, *, works: Sequence[WorkLine], today: date) -> int:  # noqa: ANN401 - an open session
    """Tick several pieces of work off in one act."""
    for work in works:
        tick(session, task=work.task, places=[work.place], on=today, today=today)
    return len(works)


def _line(work: WorkLine) -> Line:
    late = work.is_open and work.overdue_days > 0
    state = "done" if not work.is_open else f"{work.overdue_days} d overdue" if late else "open"
    if work.skipped and work.is_open:
        state = f"skipped: {work.skipped}"
    cells = (
        work.place,
        work.task,
        f"{work.done} of {work.wanted}",
        state,
        short_day(work.last_done),
    )
    mark, tone = ("!", "wrong") if late else ("○", "") if work.is_open else ("■", "quiet")
    about = About("work", f"{work.task}@{work.place}")
    firsts = {"task": work.task, "place": work.place}
    return Line(about, cells, mark, tone, more=work, firsts=firsts)


PLACE = Round
