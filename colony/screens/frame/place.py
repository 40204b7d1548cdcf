"""What every place shares: the frame, reading in the background, and opening lines."""

from asyncio import sleep
from collections.abc import Callable, Collection, Iterable, Mapping
from inspect import isawaitable
from time import monotonic
from typing import Any, ClassVar, TypeVar

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Container
from textual.message import Message
from textual.screen import Screen
from textual.widget import Widget
from textual.worker import get_current_worker

from colony.screens.frame.about import About
from colony.screens.frame.application import Application
from colony.screens.frame.outcome import Outcome, attempt
from colony.screens.widgets.entry_list import EntryList
from colony.screens.widgets.key_strip import KeyStrip
from colony.screens.widgets.notice import Notice
from colony.screens.widgets.top_line import TopLine

T = TypeVar("T")

PASSING = frozenset({"hint", "refused"})
"""Kinds of words that belong to the screen on which they were said."""

PATIENCE_SECONDS = 2.0
"""How long a key waits for a list that is being read."""


class Place(Screen[None]):
    """A full screen of the program."""

    app: Application

    HERE: ClassVar[str] = ""
    """The place of the top line that this belongs to."""

    HELP: ClassVar[str | None] = ""
    """What one does here, for the page of keys."""

    BINDINGS: ClassVar[list[BindingType]] = [Binding("escape", "back", "Back", show=False)]

    class Answered(Message):
        """A question asked of the book was answered, or refused."""

        def __init__(self, group: str, outcome: Outcome[Any], then: Callable[[Any], Any]) -> None:
            super().__init__()
            self.group, self.outcome, self.then = group, outcome, then

    def __init__(self) -> None:
        super().__init__()
        self._loaded_at = -1
        self._asked: set[str] = set()

    def compose(self) -> ComposeResult:
        """The frame around what a place shows."""
        yield TopLine(self.HERE)
        with Container(id="body"):
            yield from self.body()
        yield Notice()
        yield KeyStrip()

    def body(self) -> Iterable[Widget]:
        """What a place shows between the top line and the keys."""
        raise NotImplementedError

    def load(self) -> None:
        """Ask the book for what is shown."""

    def action_kin(self) -> None:
        """Show how the marked animals are related."""
        marked = self.marked_tags
        if len(marked) > 1:
            self.app.open_about(About("kin", "\n".join(marked)))
        else:
            self.app.say("Mark two animals or more with Space: g shows their kinship.", "hint")

    def arrive(self) -> None:
        """Somebody came here by key or click."""

    @property
    def about(self) -> About | None:
        """What the breeder is looking at, for the forms to begin with."""
        lists = self.query(EntryList)
        line = lists.first().line if lists else None
        return line.about if line else None

    @property
    def initial(self) -> Mapping[str, str]:
        """What a form begins with here, by field."""
        line = next((entries.line for entries in self.query(EntryList)), None)
        return line.initial if line else {}

    @property
    def marked_tags(self) -> list[str]:
        """The animals that are marked here."""
        return [
            line.about.tag
            for entries in self.query(EntryList)
            for line in entries.marked
            if line.about.tag
        ]

    def unmark(self, tags: Collection[str]) -> None:
        """Take the marks off animals with which something was done."""
        for entries in self.query(EntryList):
            entries.unmark(tags)

    @property
    def queue(self) -> list[str]:
        """The animals that come one after another here, from the one that is looked at on."""
        return next((entries.queue for entries in self.query(EntryList)), [])

    def on_screen_resume(self) -> None:
        """Read anew if the book changed since this was shown; hints and refusals of elsewhere go."""
        if self.app.status.kind in PASSING:
            self.app.say("")
        self.refresh_if_stale()

    def refresh_if_stale(self) -> None:
        """Read anew unless nothing was written since the last time."""
        if self._loaded_at != self.app.changes:
            self._loaded_at = self.app.changes
            self.load()

    def ask(
        self,
        question: Callable[..., T],
        then: Callable[[T], Any],
        *,
        group: str = "",
        **facts: Any,  # noqa: ANN401 - facts of any act
    ) -> None:
        """Ask the book in a thread; the answer comes as a message, a newer question wins."""
        name = group or getattr(question, "__name__", "question")

        def work() -> None:
            worker = get_current_worker()
            answer = attempt(lambda: self.app.book_session.read(question, **facts))
            if not worker.is_cancelled:
                self.post_message(self.Answered(name, answer, then))

        self._asked.add(name)
        self.app.busy = True
        self.run_worker(work, thread=True, exclusive=True, group=name)

    async def rest(self, seconds: float = PATIENCE_SECONDS) -> None:
        """Wait a little for what is being read: a form begins with what the list says."""
        began = monotonic()
        while self._asked and monotonic() - began < seconds:  # noqa: ASYNC110 - at most 2 s, several answers
            await sleep(0.01)

    async def on_place_answered(self, event: "Place.Answered") -> None:
        """Show an answer, or say why there is none."""
        event.stop()
        self._asked.discard(event.group)
        self.app.busy = bool(self._asked)
        if event.outcome.problem:
            self.app.say(event.outcome.problem, "refused")
        else:
            shown = event.then(event.outcome.answer)
            if isawaitable(shown):
                await shown

    def on_entry_list_opened(self, event: EntryList.Opened) -> None:
        """Open what a line is about."""
        self.app.open_about(event.line.about)

    def action_back(self) -> None:
        """Stop what is being read, else go back, and in the end home."""
        if self._asked:
            self.workers.cancel_node(self)
            self._asked.clear()
            self.app.busy = False
            self.app.say("Stopped reading; what is shown is what was there before.", "hint")
        elif len(self.app.screen_stack) > 1:
            self.app.pop_screen()
        else:
            self.app.call_later(self.app.action_go, "day")
