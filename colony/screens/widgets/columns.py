"""Lay the cells of a list out in the width that there is."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from textual.content import Content

from colony.notation.tags import printable

GAP = 2
MARK = 2
"""Columns of screen for the mark in front of a line, and between two cells."""

TONES = {
    "": "",
    "quiet": "$quiet",
    "due": "$primary",
    "ready": "$success",
    "wrong": "bold $error",
    "water": "$secondary",
}
"""What a tone looks like; a mark or a word always says the same."""


Cell = str | Callable[[int], str]
"""What stands in a cell: text, or a drawing that is given its width."""


@dataclass(frozen=True)
class Column:
    """One column: its head, its width, and the screen width from which it is shown."""

    head: Cell
    width: int
    from_screen: int = 0
    right: bool = False
    grows: bool = False
    style: str = ""


@dataclass(frozen=True)
class Layout:
    """The width of a line, and its columns, each with its place among the cells and its width."""

    width: int
    shown: tuple[tuple[int, Column, int], ...]

    def head(self) -> str:
        """The line of heads, from behind the mark on."""
        cells = [_fit(column.head, width, right=column.right) for _, column, width in self.shown]
        return (" " * GAP).join(cells).rstrip()

    def line(self, cells: Sequence[Cell], mark: str, tone: str) -> Content:
        """One line: its mark, then its cells; the tone colours the mark and the first cell.

        The last of fewer cells than there are columns runs on to the end of the line.
        """
        if len(cells) < len(self.shown):
            return self._running_on(cells, mark, tone)
        style = TONES[tone]
        parts = [(f"{mark or ' ':<{MARK}}", style)]
        for place, column, width in self.shown:
            gap = " " * GAP * (len(parts) < len(self.shown))
            text = _fit(cells[place], width, right=column.right) + gap
            first = len(parts) == 1
            parts.append((text, style or "bold" if first else column.style))
        return Content.assemble(*parts)

    def _running_on(self, cells: Sequence[Cell], mark: str, tone: str) -> Content:
        *own, last = cells
        shown = zip(own, self.shown, strict=False)
        texts = [_fit(cell, width, right=False) for cell, (_, _, width) in shown]
        room = self.width - MARK - sum(len(text) + GAP for text in texts)
        rest = (" " * GAP).join([*texts[1:], _fit(last, max(room, 0), right=False)])
        style = TONES[tone]
        first = (f"{mark or ' ':<{MARK}}{texts[0]}", style or "bold")
        return Content.assemble(first, " " * GAP, rest)


def lay_out(columns: Sequence[Column], width: int) -> Layout:
    """Choose the columns for a width; the growing one takes what is left, or gives what lacks."""
    chosen = [(at, column) for at, column in enumerate(columns) if column.from_screen <= width]
    taken = MARK + sum(column.width for _, column in chosen) + GAP * (len(chosen) - 1)
    spare = width - taken
    shown = ((at, column, max(column.width + spare * column.grows, 0)) for at, column in chosen)
    return Layout(width, tuple(shown))


def _fit(cell: Cell, width: int, *, right: bool) -> str:
    if not width:  # a narrow screen leaves the growing column nothing
        return ""
    text = cell(width) if callable(cell) else printable(cell)
    if len(text) > width:
        text = f"{text[: max(width - 1, 0)]}…"
    return f"{text:>{width}}" if right else f"{text:<{width}}"
