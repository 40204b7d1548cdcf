"""The top line: the places by their number, and the day."""

from textual.content import Content
from textual.widget import Widget

from colony.screens.frame.places import PLACES

ROOMY = 90
"""Columns from which the day has room for its name and year."""

LONG_SECONDS = 0.25
"""How long the book is read before that is said."""


class TopLine(Widget):
    """Where one is, where one can go, and what day it is; each place can be clicked."""

    def __init__(self, here: str) -> None:
        super().__init__()
        self._here = here
        self._says_busy = False

    def on_mount(self) -> None:
        """Follow the work that goes on."""
        self.watch(self.app, "busy", self._tell_busy, init=False)
        self.watch(self.app, "day", self._redraw, init=False)

    def _tell_busy(self, busy: bool) -> None:
        """Say that the book is read when it takes long, not at each letter of a search."""
        if busy:
            self.set_timer(LONG_SECONDS, self._redraw)
        elif self._says_busy:
            self._redraw()

    def _redraw(self) -> None:
        self.refresh()

    def render(self) -> Content:
        """Draw the places on the left and the day on the right."""
        places = [self._place(name) for name in PLACES]
        left = Content("").join(places)
        right = self._right()
        gap = max(self.size.width - left.cell_length - len(right) - 1, 1)
        return Content.assemble(left, " " * gap, (right, "$quiet"))

    def _place(self, name: str) -> Content:
        place = PLACES[name]
        here = name == self._here
        style = "reverse bold" if here else ""
        text = f" {place.key} {place.title}{' ' if self.size.width >= ROOMY else ''}"
        return Content.from_markup(f"[@click=app.go('{name}')]$text[/]", text=text).stylize(style)

    def _right(self) -> str:
        self._says_busy = bool(getattr(self.app, "busy", False))
        if self._says_busy:
            return "Esc stops"
        day = self.app.day  # type: ignore[attr-defined]
        short = f"{day.day} {day:%b}"
        return f"{day:%a} {short} {day.year}" if self.size.width >= ROOMY else short
