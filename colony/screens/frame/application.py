"""What a screen, a form or a page may ask of the program around it."""

import os
from collections.abc import Collection, Sequence
from datetime import date

from textual.app import App
from textual.reactive import reactive

from colony.screens.frame.about import About
from colony.screens.frame.held_key import HeldKey
from colony.screens.frame.session import BookSession
from colony.screens.frame.status import Status


class Application(App[None]):
    """The state that every screen shares; `colony.screens.app` knows the screens themselves."""

    busy: reactive[bool] = reactive(default=False)
    status: reactive[Status] = reactive(Status())
    day: reactive[date] = reactive(date.min)
    away: reactive[str] = reactive("")
    """Why the book cannot be read now; empty while it can."""

    def __init__(self, book_session: BookSession) -> None:
        # Only with the terminal's own colours can textual leave all colour out (NO_COLOR).
        super().__init__(ansi_color=True if os.environ.get("NO_COLOR") else None)
        self.book_session, self.changes = book_session, 0
        self.undo_key, self.pressed_at = HeldKey(), 0.0
        self.set_reactive(Application.day, book_session.today)

    def say(self, words: str, kind: str = "hint") -> None:
        """Say something in the line above the keys."""
        self.status = Status(words, kind)

    def show_written(self, words: str) -> None:
        """Say what was written, and show the book anew."""
        self.undo_key.release()
        self.say(f"{words} u takes it back.", "written")
        self.changed()

    def changed(self) -> None:
        """Show anew whatever is on the screen."""
        raise NotImplementedError

    def unmark(self, tags: Collection[str]) -> None:
        """Take the marks off animals with which something was done."""
        raise NotImplementedError

    def open_about(self, about: About) -> None:
        """Open the page of an animal, a litter or a tank, or go to a place."""
        raise NotImplementedError

    async def action_go(self, name: str) -> None:
        """Go to a place, at its front; keys that follow wait until it is there."""
        raise NotImplementedError

    async def action_form(self, name: str, **initial: str) -> None:
        """Bring a form, begun with what is looked at; keys that follow wait until it is there."""
        raise NotImplementedError

    async def carry(self, tags: Sequence[str]) -> None:
        """Go to the house with animals in hand."""
        raise NotImplementedError
