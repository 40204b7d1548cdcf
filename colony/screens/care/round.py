"""Round: today's work in walking order, a line a place, ticked off by one key."""

from collections.abc import Iterable, Sequence
from datetime import date
from itertools import groupby
from typing import Any, ClassVar

from textual.binding import Binding, BindingType
from textual.widget import Widget

from colony.acts.book.day import alarms_today
from colony.acts.care.rhythms import begin_round
from colony.acts.care.round import tick
from colony.acts.care.work import WorkLine, todays_round
from colony.planning.alarms.alarms import Alarm
from colony.screens.forms.table import FORM_NAMES
from colony.screens.frame.about import About
from colony.screens.frame.dates import short_day
from colony.screens.frame.outcome import attempt
from colony.screens.frame.place import Place
from colony.screens.widgets.columns import Column
from colony.screens.widgets.entry_list import Entry, EntryList, Heading, Line

COLUMNS = (
    Column("Where", 12),
    Column("To do", 30, grows=True),
    Column("Late", 12),
    Column("Last done", 12, from_screen=100),
)

NONE = "No task has a rhythm yet: i begins with the usual ones (common practice, no source)."


RoundNow = tuple[Sequence[WorkLine], Sequence[Alarm]]
"""The work of the day, and the dangers that are seen to before it."""


class Round(Place):
    """The work of the day; isolated water comes last, with its own net and tools."""

    HERE = "round"
    HELP: ClassVar[str | None] = (
        "Space ticks off what is open at a place and asks for each number, food and value; A ticks "
        "a whole system. Enter unfolds a place to its tasks; z skips one with a reason. Clean water comes before isolated."
    )
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("space", "tick", "Done"),
        Binding("A", "tick_system", "Whole system"),
        Binding("z", "app.form('skip')", "Skip"),
        Binding("i", "begin", "Usual rhythms", show=False),
    ]

    def __init__(self) -> None:
        super().__init__()
        self._works: Sequence[WorkLine] = ()
        self._alarms: Sequence[Alarm] = ()
        self._unfolded: set[str] = set()

    def body(self) -> Iterable[Widget]:
        """The work, system by system."""
        yield EntryList(COLUMNS, empty=NONE)

    def on_mount(self) -> None:
        """The list takes the keys."""
        self.query_one(EntryList).focus()

    def load(self) -> None:
        """Ask for today's work."""
        self.ask(round_now, self._show, today=self.app.book_session.today)

    def action_begin(self) -> None:
        """Begin the round with the usual rhythms."""
        done = attempt(
            lambda: self.app.book_session.act(
                "round begin", begin_round, today=self.app.book_session.today
            )
        )
        if done.answer is None:
            self.app.say(done.problem, "refused")
        else:
            self.app.show_written("The round begins with the usual rhythms.")

    async def action_tick(self) -> None:
        """Tick off what is open here; then bring the form of what takes a value, one by one."""
        still = [work for work in self._works_here() if work.is_open]
        valued = [work for work in still if work.written_by]
        plain = [work for work in still if work not in valued]
        if plain or not valued:
            self._tick(plain)
        if valued:
            first = valued[0]
            await self.app.action_form(FORM_NAMES[first.written_by], place=first.place)

    def action_tick_system(self) -> None:
        """Tick off all that is open at every place of the system."""
        if here := self._works_here():
            system = here[0].system
            still = [work for work in self._works if work.system == system and work.is_open]
            self._tick([work for work in still if not work.written_by])

    def on_entry_list_opened(self, event: EntryList.Opened) -> None:
        """Unfold a place to its tasks, or fold it again."""
        event.stop()
        event.prevent_default()
        works = self._works_here()
        if works:
            self._unfolded ^= {works[0].place}
            self._list()

    def _works_here(self) -> Sequence[WorkLine]:
        line = self.query_one(EntryList).line
        return line.more if line and isinstance(line.more, tuple) else ()

    def _tick(self, works: Sequence[WorkLine]) -> None:
        if not works:
            self.app.say("Nothing is open here.")
            return
        book_session = self.app.book_session
        done = attempt(
            lambda: book_session.act("round done", _tick_off, works=works, today=book_session.today)
        )
        if done.answer is None:
            self.app.say(done.problem, "refused")
            return
        self.query_one(EntryList).action_cursor_down()
        places = ", ".join(dict.fromkeys(work.place for work in works))
        what = works[0].task if len(works) == 1 else f"{len(works)} tasks"
        minded = " ".join(dict.fromkeys(work.caution for work in works if work.caution))
        self.app.show_written(f"{what} done: {places}. {minded}".rstrip())

    def _show(self, now: RoundNow) -> None:
        self._works, self._alarms = now
        self._list()

    def _list(self) -> None:
        # Headings: the first line that keys are for is still the first place of the walk.
        entries: list[Entry] = [Heading(f"! {alarm.sentence}") for alarm in self._alarms]
        for (system, water), here in groupby(
            self._works, key=lambda work: (work.system, work.water)
        ):
            tools = "" if water == "clean" else ", own net and tools"
            entries.append(Heading(f"{system}, {water} water{tools}"))
            for place, works in groupby(here, key=lambda work: work.place):
                tasks = tuple(works)
                entries.append(_place_line(place, tasks))
                if place in self._unfolded:
                    entries += map(_task_line, tasks)
        self.query_one(EntryList).show(entries)


def round_now(session: Any, *, today: date) -> RoundNow:  # noqa: ANN401 - an open session
    """Ask for today's work, and for what is dangerous."""
    return todays_round(session, today=today), alarms_today(session, today=today)


def _tick_off(session: Any, *, works: Sequence[WorkLine], today: date) -> int:  # noqa: ANN401 - an open session
    """Tick several pieces of work off in one act."""
    for work in works:
        tick(session, task=work.task, places=[work.place], on=today, today=today)
    return len(works)


def _place_line(place: str, works: tuple[WorkLine, ...]) -> Line:
    """All work of a place in one line: what is open, or that all is done."""
    still = [work for work in works if work.is_open]
    late = max((work.overdue_days for work in still), default=0)
    mark, tone = _mark(is_open=bool(still), late=late)
    tasks = [f"{work.in_words} (skipped)" if work.skipped else work.in_words for work in still]
    cells = (place, ", ".join(tasks) or "all done", _late(late), "")
    initial = {"task": still[0].task, "place": place} if still else {"place": place}
    return Line(About("work", place), cells, mark, tone, more=works, initial=initial)


def _task_line(work: WorkLine) -> Line:
    """One task of a place that is unfolded."""
    late = work.overdue_days if work.is_open else 0
    mark, tone = _mark(is_open=work.is_open, late=late)
    done = f"{work.task}, {work.done} of {work.wanted}"
    done += f" ({work.caution})" if work.caution else ""
    skipped = f" (skipped: {work.skipped})" if work.skipped and work.is_open else ""
    cells = ("", f"{mark} {done}{skipped}", _late(late), short_day(work.last_done))
    initial = {"task": work.task, "place": work.place}
    about = About("work", f"{work.task}@{work.place}")
    return Line(about, cells, "", tone, more=(work,), initial=initial)


def _late(days: int) -> str:
    return f"{days} d overdue" if days > 0 else ""


def _mark(*, is_open: bool, late: int) -> tuple[str, str]:
    if is_open and late > 0:
        return "!", "wrong"
    return ("○", "") if is_open else ("■", "quiet")
