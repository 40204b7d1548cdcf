"""Lay the cells of a list out in the width that there is."""

from collections.abc import Sequence
from dataclasses import dataclass

from textual.content import Content

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
    "strong": "bold",
}
"""What a tone looks like; a mark or a word always says the same."""


@dataclass(frozen=True)
class Column:
    """One column: its head, its width, and the screen width from which it is shown."""

    head: str
    width: int
    from_screen: int = 0
    right: bool = False
    grows: bool = False


@dataclass(frozen=True)
class Layout:
    """The columns that are shown, each with its place among the cells and its width."""

    shown: tuple[tuple[int, Column, int], ...]

    def head(self) -> Content:
        """The line of heads."""
        cells = [_fit(column.head, width, right=column.right) for _, column, width in self.shown]
        return Content(" " * MARK + (" " * GAP).join(cells))

    def line(self, cells: Sequence[str], mark: str, tone: str) -> Content:
        """One line: its mark, then its cells; the tone colours the mark and the first cell."""
        written = [
            _fit(cells[place], width, right=column.right) for place, column, width in self.shown
        ]
        style = TONES[tone]
        return Content.assemble(
            (f"{mark or ' ':<{MARK}}", style),
            (written[0], style or "bold"),
            " " * GAP,
            (" " * GAP).join(written[1:]),
        )


def lay_out(columns: Sequence[Column], width: int) -> Layout:
    """Choose the columns for a width; the growing one takes what is left."""
    chosen = [(at, one) for at, one in enumerate(columns) if one.from_screen <= width]
    taken = MARK + sum(one.width for _, one in chosen) + GAP * (len(chosen) - 1)
    spare = max(width - taken, 0)
    return Layout(tuple((at, one, one.width + spare * one.grows) for at, one in chosen))


def _fit(text: str, width: int, *, right: bool) -> str:
    if len(text) > width:
        text = f"{text[: max(width - 1, 0)]}…"
    return f"{text:>{width}}" if right else f"{text:<{width}}"
