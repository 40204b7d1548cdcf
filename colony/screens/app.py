"""The program at full screen: its places, its forms, and what it says."""

import asyncio
from collections.abc import Callable, Collection, Sequence
from functools import partial
from typing import TYPE_CHECKING, Any, ClassVar, cast

from textual.binding import BindingType
from textual.events import Event, InputEvent, Key
from textual.filter import LineFilter

from colony.acts.book.news import News
from colony.refusals.base import Refusal
from colony.screens.frame.about import About, Beginning
from colony.screens.frame.application import Application
from colony.screens.frame.keys import KEYS
from colony.screens.frame.outcome import Outcome, attempt
from colony.screens.frame.palette import EveryCommand
from colony.screens.frame.place import Place
from colony.screens.frame.session import BookSession
from colony.screens.frame.themes import BLACKWATER, SANDBAR, SIXTEEN, THEMES, theme_for
from colony.screens.loaders import FORM_CLASSES, PAGE_CLASSES, PLACE_CLASSES
from colony.screens.widgets.inert import Inert

if TYPE_CHECKING:
    from colony.screens.tanks.tanks import House

POLL_SECONDS = 2.0
"""How often the book is looked at for what others wrote."""

_INERT = Inert()

POLL = "poll"
"""The group of the worker that looks."""

AWAY = "The book is away; what is typed stays, and it is looked for by itself."
"""What is said before the reason: a form may have room for one line."""

SHEETS = ("frame", "entries", "forms", "pages", "tanks")


def _place(load: Callable[[], type[Place]]) -> Place:
    """Make the screen of a place; its module is loaded now and not before."""
    return load()()


class ColonyApp(Application):
    """The colony book at full screen."""

    TITLE = "colony"
    CSS_PATH: ClassVar[Any] = [f"styles/{sheet}.tcss" for sheet in SHEETS]
    BINDINGS: ClassVar[list[BindingType]] = list(KEYS)
    COMMANDS: ClassVar[Any] = {EveryCommand}
    COMMAND_PALETTE_BINDING = "ctrl+p"
    HORIZONTAL_BREAKPOINTS = [(0, "-narrow"), (110, "-wide")]  # noqa: RUF012 - as textual has it
    MODES: ClassVar[dict[str, Any]] = {
        name: partial(_place, load) for name, load in PLACE_CLASSES.items()
    }
    DEFAULT_MODE: ClassVar[str] = "day"
    ENABLE_COMMAND_PALETTE: ClassVar[bool] = True

    def __init__(self, book_session: BookSession, theme: str | None = None) -> None:
        super().__init__(book_session)
        self.fault: Refusal | None = None
        for each in THEMES:
            self.register_theme(each)
        self.theme = theme or theme_for(self.console.color_system, no_color=self.no_color)

    def get_line_filters(self) -> Sequence[LineFilter]:
        """What every line passes through before it is drawn."""
        return [_INERT, *super().get_line_filters()]

    def on_mount(self) -> None:
        """Begin to watch the clock and the book."""
        self.set_interval(POLL_SECONDS, self._poll)

    async def on_event(self, event: Event) -> None:
        """Give each key its whole effect before the next is looked at.

        Otherwise, on a slow machine, keys typed ahead of a form or a field would go astray.
        """
        if isinstance(event, InputEvent):
            self.pressed_at = event.time
        if not isinstance(event, Key) or event.is_forwarded:
            await super().on_event(event)
            return
        focused = self.focused
        if focused is not None and focused.check_consume_key(event.key, event.character):
            await super().on_event(event)
            typed = asyncio.Event()
            focused.call_later(typed.set)
            await typed.wait()
            return
        active = self.screen.active_bindings.get(event.key)
        if (
            active is None
            or not active.enabled
            or not await self.run_action(active.binding.action, active.node)
        ):
            await super().on_event(event)

    def unmark(self, tags: Collection[str]) -> None:
        """Take the marks off animals with which something was done."""
        for screen in self.screen_stack:
            if isinstance(screen, Place):
                screen.unmark(tags)

    def changed(self) -> None:
        """Show anew whatever is on the screen."""
        self.changes += 1
        for screen in reversed(self.screen_stack):
            if isinstance(screen, Place):
                screen.refresh_if_stale()
                return

    def open_about(self, about: About) -> None:
        """Open the page of an animal, a litter or a tank, or go to a place."""
        if about.kind == "place":
            self.call_later(self.action_go, about.key)
        elif about.kind in PAGE_CLASSES:
            self.push_screen(PAGE_CLASSES[about.kind]()(about))

    async def action_go(self, name: str) -> None:
        """Go to a place, at its front; keys that follow wait until it is there."""
        while len(self.screen_stack) > 1:
            self.pop_screen()
        await self.switch_mode(name)
        if isinstance(self.screen, Place):
            self.screen.arrive()

    async def action_form(self, name: str, **initial: str) -> None:
        """Bring a form, begun with what is looked at; keys that follow wait until it is there."""
        form, place = FORM_CLASSES[name](), self.screen
        if isinstance(place, Place):
            await place.rest()
            begun = {**place.initial, **initial}
            beginning = Beginning(place.about, place.marked_tags, place.queue, begun)
        else:
            beginning = Beginning(initial=initial)
        await self.push_screen(form(beginning))

    async def carry(self, tags: Sequence[str]) -> None:
        """Go to the house with animals in hand."""
        await self.action_go("tanks")
        cast("House", self.screen).carry(tags)

    def action_light(self) -> None:
        """Change between the dark and the light colours."""
        if self.theme != SIXTEEN.name:
            self.theme = SANDBAR.name if self.theme != SANDBAR.name else BLACKWATER.name

    def action_help(self) -> None:
        """List the keys that work here."""
        from colony.screens.frame.keys_page import KeysPage

        self.push_screen(KeysPage(self.screen))

    async def action_undo(self) -> None:
        """Take one's own last act back."""
        from colony.screens.book.undo import take_back

        await take_back(self)

    def _handle_exception(self, error: Exception) -> None:
        """Keep what an error of ours leaves to tell; textual then closes the screens."""
        if self.fault is None:
            from colony.screens.faults import fault_of

            stacks = self._screen_stacks.values()
            self.fault = fault_of(error, (screen for stack in stacks for screen in stack))
        super()._handle_exception(error)

    def _fatal_error(self) -> None:
        """Close without a traceback: `run_screens` says the fault in a sentence."""
        self._close_messages_no_wait()

    def _poll(self) -> None:
        self.day = self.book_session.today
        if self.book_session.concern:
            self.say(self.book_session.concern, "refused")
            self.book_session.concern = ""
        # A server that does not answer keeps a look waiting; the next ones need not queue up.
        if not any(worker.group == POLL and not worker.is_finished for worker in self.workers):
            self.run_worker(self._poll_book, thread=True, group=POLL)

    def _poll_book(self) -> None:
        news = attempt(self.book_session.news)
        if news.problem or news.answer or self.away:
            self.call_from_thread(self._polled, news)

    def _polled(self, news: Outcome[News | None]) -> None:
        was_away, self.away = self.away, news.problem and f"{AWAY} {news.problem}"
        if self.away:
            self.say(self.away, "away")
        elif news.answer:
            who, summary, more = news.answer.who, news.answer.summary, news.answer.acts - 1
            others = f" (and {more} more)" if more > 0 else ""
            self.say(f"Written elsewhere by {who}: {summary}{others}", "elsewhere")
            self.changed()
        elif was_away:
            self.say("The book is there again.", "elsewhere")
            self.changed()
