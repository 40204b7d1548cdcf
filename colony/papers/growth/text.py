"""A pup's growth curve drawn with characters, for a terminal of 80 columns.

Plain text without colour or markup: the marks alone tell the lines apart.
"""

from collections.abc import Iterable
from datetime import date
from itertools import pairwise
from textwrap import wrap

from colony.notation.house import show_length, units_now
from colony.papers.growth.picture import GrowthPicture, Line
from colony.papers.plain_words import printable

MARKS = {
    "band": "░",
    "species": "·",
    "wanted": "┄",
    "mate": "o",
    "forecast": "─",
    "doubtful": "x",
    "own": "●",
}
"""One mark a line; a later one is drawn over an earlier one."""

MARGIN = 6
HARD_SPACE = "\N{NO-BREAK SPACE}"


def growth_text(picture: GrowthPicture, *, columns: int = 78, rows: int = 18) -> str:
    """Draw a growth curve with characters, widths in the unit of the house.

    Parameters
    ----------
    picture
        What to draw.
    columns, rows
        Size of the drawing, axes and labels included in the columns; at least 40 by 6.

    Returns
    -------
    str
        Lines that end in a line feed and are no longer than `columns`.
    """
    plot = _Plot(picture, max(columns, 40) - MARGIN - 1, max(rows, 6))
    plot.draw()
    first, last = str(picture.first_day), str(picture.last_day)
    lines = [
        f"{printable(picture.tag)}: disc width, {units_now().length}"[:columns],
        *plot.labelled(),
        " " * MARGIN + "└" + "─" * plot.columns,
        " " * (MARGIN + 1) + first + last.rjust(plot.columns - len(first)),
        *_legend(picture, columns),
    ]
    return "".join(f"{line.rstrip()}\n" for line in lines)


class _Plot:
    """The cells of the drawing, row 0 on top."""

    def __init__(self, picture: GrowthPicture, columns: int, rows: int) -> None:
        self.picture, self.columns, self.rows = picture, columns, rows
        self.cells = [[" "] * columns for _ in range(rows)]
        self.days = (picture.last_day - picture.first_day).days
        self.span_mm = picture.top_mm - picture.bottom_mm

    def draw(self) -> None:
        """Draw the lines, those that matter most last."""
        picture = self.picture
        self._band()
        if picture.wanted_mm is not None:
            row = self.cells[self._row(picture.wanted_mm)]
            row[:] = [MARKS["wanted"] if cell == " " else cell for cell in row]
        self._line("species", picture.species)
        self._points("mate", (point for mate in picture.mates.values() for point in mate))
        self._line("forecast", tuple((f.day, f.width_mm) for f in picture.forecast))
        self._points("doubtful", picture.doubtful)
        self._points("own", picture.measured)

    def _band(self) -> None:
        ahead = self.picture.forecast
        lows = self._filled(tuple((f.day, f.low_mm) for f in ahead))
        highs = self._filled(tuple((f.day, f.high_mm) for f in ahead))
        for (column, low), (_, high) in zip(lows, highs, strict=True):
            for row in range(self._row(high), self._row(low) + 1):
                self.cells[row][column] = MARKS["band"]

    def _line(self, name: str, line: Line) -> None:
        for column, width in self._filled(line):
            self.cells[self._row(width)][column] = MARKS[name]

    def _filled(self, line: Line) -> list[tuple[int, float]]:
        """Give a line a width in every column between its ends."""
        found: dict[int, float] = {}
        for (day, width), (later, wider) in pairwise(line):
            first, last = self._column(day), self._column(later)
            for column in range(first, last + 1):
                share = (column - first) / max(last - first, 1)
                found[column] = width + share * (wider - width)
        return sorted(found.items())

    def labelled(self) -> Iterable[str]:
        """Yield the rows, every third with its width."""
        for number, cells in enumerate(self.cells):
            middle = self.picture.top_mm - (number + 0.5) * self.span_mm / self.rows
            label = show_length(middle).split()[0] if number % 3 == 0 else ""
            yield f"{label:>{MARGIN - 1}} │{''.join(cells)}"

    def _points(self, name: str, points: Iterable[tuple[date, float]]) -> None:
        for day, width in points:
            self.cells[self._row(width)][self._column(day)] = MARKS[name]

    def _column(self, day: date) -> int:
        share = (day - self.picture.first_day).days / self.days
        return min(int(share * self.columns), self.columns - 1)

    def _row(self, width_mm: float) -> int:
        share = (self.picture.top_mm - width_mm) / self.span_mm
        return min(max(int(share * self.rows), 0), self.rows - 1)


def _legend(picture: GrowthPicture, columns: int) -> list[str]:
    shown = [("own", "measured"), ("forecast", "forecast"), ("band", "80 %")]
    shown += [("mate", "litter-mates")] if picture.mates else []
    shown += [("species", "species")]
    shown += [("wanted", "wanted")] if picture.wanted_mm is not None else []
    shown += [("doubtful", "doubtful")] if picture.doubtful else []
    entries = "  ".join(f"{MARKS[name]}{HARD_SPACE}{words}" for name, words in shown)
    lines = wrap(entries.replace("80 %", f"80{HARD_SPACE}%"), columns - MARGIN - 1)
    return [" " * (MARGIN + 1) + line.replace(HARD_SPACE, " ") for line in lines]
