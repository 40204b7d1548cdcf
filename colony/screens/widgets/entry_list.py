"""A list of lines; each opens what it is about, and more come as the end draws near."""

from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from itertools import takewhile

from textual.content import Content
from textual.events import Resize
from textual.message import Message
from textual.style import Style
from textual.widgets import OptionList
from textual.widgets.option_list import Option

from colony.screens.frame.about import About
from colony.screens.widgets.columns import Cell, Column, Layout, lay_out

NEAR = 15
"""Lines before the end at which the next page is asked for."""

HIGHLIGHTED = "option-list--option-highlighted"
"""What textual calls the line that one is on."""

PAGE = 30
"""Lines that are drawn at once, beyond what the screen is high."""


@dataclass(frozen=True)
class Line:
    """One line: what it is about, its cells, and its mark and tone.

    `more` is for the pane beside; `initial` is what a form begins with here, by field.
    """

    about: About
    cells: Sequence[Cell]
    mark: str = ""
    tone: str = ""
    more: object = field(default=None, compare=False)
    initial: Mapping[str, str] = field(default_factory=dict)


@dataclass(frozen=True)
class Heading:
    """A line that only parts the list."""

    text: str


Entry = Line | Heading


class EntryList(OptionList):
    """The lines of a list, in columns that fit the screen."""

    class NearEnd(Message):
        """The highlight came near the last line that is here."""

    class Highlighted(Message):
        """Another line is highlighted."""

        def __init__(self, line: Line | None) -> None:
            super().__init__()
            self.line = line

    class Opened(Message):
        """A line was chosen."""

        def __init__(self, line: Line) -> None:
            super().__init__()
            self.line = line

    def __init__(self, columns: Sequence[Column], *, empty: str = "") -> None:
        super().__init__(compact=True, markup=False)
        self._columns = columns
        self._empty = empty
        self._entries: list[Entry] = []
        self._marked: set[str] = set()
        self._drawn = 0
        self.filled = 0

    @property
    def entries(self) -> Sequence[Entry]:
        """What is listed."""
        return self._entries

    @property
    def line(self) -> Line | None:
        """The highlighted line."""
        if self.highlighted is None or self.highlighted >= len(self._entries):
            return None
        entry = self._entries[self.highlighted]
        return entry if isinstance(entry, Line) else None

    @property
    def marked(self) -> list[Line]:
        """The lines that were marked, in the order of the list."""
        return [
            entry
            for entry in self._entries
            if isinstance(entry, Line) and entry.about.key in self._marked
        ]

    @property
    def queue(self) -> list[str]:
        """The marked animals, or those from the highlighted one to the next heading."""
        rest = self._entries[self.highlighted or 0 :]
        return _tags(self.marked or takewhile(lambda entry: isinstance(entry, Line), rest))

    @property
    def queue_to_the_end(self) -> list[str]:
        """The marked animals, or those from the highlighted one to the end, past all headings."""
        return _tags(self.marked or self._entries[self.highlighted or 0 :])

    def show(self, entries: Sequence[Entry], columns: Sequence[Column] | None = None) -> None:
        """List these in place of what is listed; the highlight stays on what it was on."""
        kept = self.line.about if self.line else None
        self._columns = columns or self._columns
        self._entries = list(entries)
        self._marked &= {entry.about.key for entry in entries if isinstance(entry, Line)}
        self._fill()
        self._highlight(kept)

    def add(self, entries: Sequence[Entry]) -> None:
        """List these too: the next page."""
        self._entries.extend(entries)
        self._draw_more()

    def toggle_mark(self) -> None:
        """Mark the highlighted line, or unmark it, and go on to the next."""
        if self.line is None or self.highlighted is None:
            return
        self._marked ^= {self.line.about.key}
        prompt = self._prompt(self.line, self._layout())
        self.replace_option_prompt_at_index(self.highlighted, prompt)
        if self.highlighted + 1 < len(self._entries):
            self.action_cursor_down()

    def unmark(self, tags: Collection[str]) -> None:
        """Take the marks off these animals."""
        wanted = self._marked & set(tags)
        self._marked -= wanted
        for at, entry in enumerate(self._entries[: self._drawn] if wanted else ()):
            if isinstance(entry, Line) and entry.about.key in wanted:
                self.replace_option_prompt_at_index(at, self._prompt(entry, self._layout()))

    def action_last(self) -> None:
        """Go to the very last line, also where it was not drawn yet."""
        while self._drawn < len(self._entries):
            self._draw_more()
        super().action_last()

    def get_visual_style(self, *component_classes: str, partial: bool = False) -> Style:
        """Reverse the highlighted line where colours cannot show it; textual forgets that rule."""
        style = super().get_visual_style(*component_classes, partial=partial)
        if HIGHLIGHTED in component_classes and self.app.native_ansi_color:
            style += Style(reverse=True)
        return style

    def watch_highlighted(self, highlighted: int | None) -> None:
        """Tell which line is looked at, and when the end is near."""
        super().watch_highlighted(highlighted)
        self.post_message(self.Highlighted(self.line))
        if highlighted is None or highlighted < self._drawn - NEAR:
            return
        if self._drawn < len(self._entries):
            self._draw_more()
        else:
            self.post_message(self.NearEnd())

    def on_option_list_option_selected(self, event: OptionList.OptionSelected) -> None:
        """Open the chosen line."""
        event.stop()
        entry = self._entries[event.option_index]
        if isinstance(entry, Line):
            self.post_message(self.Opened(entry))

    def on_resize(self, _: Resize) -> None:
        """Lay the lines out anew."""
        kept = self.highlighted
        self._fill()
        if kept is not None and kept < len(self._entries):
            self.highlighted = kept

    def _fill(self) -> None:
        layout = self._layout()
        self._drawn = min(
            max(PAGE, self.size.height, self.highlighted or 0) + NEAR, len(self._entries)
        )
        options = [self._option(entry, layout) for entry in self._entries[: self._drawn]]
        self.border_title = f" {layout.head()}" if self._entries else ""
        self.filled += 1
        self.set_options(options or [Option(self._empty, disabled=True)])

    def _draw_more(self) -> None:
        layout = self._layout()
        more = self._entries[self._drawn : self._drawn + PAGE]
        self._drawn += len(more)
        self.add_options([self._option(entry, layout) for entry in more])

    def _highlight(self, about: About | None) -> None:
        lines = [at for at, entry in enumerate(self._entries) if isinstance(entry, Line)]
        same = [at for at in lines if self._entries[at].about == about]  # type: ignore[union-attr]
        wanted = next(iter(same or lines), None)
        while wanted is not None and wanted >= self._drawn:
            self._draw_more()
        self.highlighted = wanted

    def _layout(self) -> Layout:
        return lay_out(self._columns, self.scrollable_content_region.width or self.app.size.width)

    def _option(self, entry: Entry, layout: Layout) -> Option:
        if isinstance(entry, Heading):
            return Option(Content.assemble((entry.text, "$quiet bold")), disabled=True)
        return Option(self._prompt(entry, layout))

    def _prompt(self, line: Line, layout: Layout) -> Content:
        mark = "+" if line.about.key in self._marked else line.mark
        return layout.line(line.cells, mark, line.tone)


def _tags(entries: Iterable[Entry]) -> list[str]:
    return [entry.about.tag for entry in entries if isinstance(entry, Line) and entry.about.tag]
