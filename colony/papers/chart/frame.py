"""The millimetres of a chart: columns, rows, lanes, and room for words."""

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from colony.papers.chart.drawing import LETTER_WIDTH
from colony.papers.chart.places import Places
from colony.papers.chart.routes import Lanes
from colony.papers.chart.text import AnimalText

A4_MM = (297.0, 210.0)
MARGIN_MM, TITLE_MM, KEY_MM = 10.0, 9.0, 7.0
SYMBOL_MM, LEAST_COLUMN_MM, MOST_COLUMN_MM = 6.0, 8.6, 26.0
LANE_MM, CLEAR_MM, MOST_SLACK_MM = 3.0, 2.0, 14.0
TEXT_MM, TEXT_LINE_MM = 2.2, 2.5


@dataclass(frozen=True)
class Words:
    """How the words of one animal stand: on which level, and how wide they may be."""

    level: int
    room_mm: float


@dataclass(frozen=True)
class RowWords:
    """How the words of one row stand.

    Attributes
    ----------
    of
        Words of each animal; neighbours that would touch stand on different levels.
    levels, lines
        How many levels there are, and lines of text on each.
    above
        Whether they stand over the symbols, where no line comes from.
    """

    of: dict[int, Words]
    levels: int
    lines: int
    above: bool

    @property
    def height_mm(self) -> float:
        """What they need."""
        return self.lines * TEXT_LINE_MM * self.levels + 1


@dataclass(frozen=True)
class Frame:
    """Where columns, rows and lanes lie on the page."""

    places: Places
    width_mm: float
    height_mm: float
    column_mm: float
    words: tuple[RowWords, ...]
    centre_mm: tuple[float, ...]
    first_lane_mm: tuple[float, ...]

    def x(self, column: float) -> float:
        """A column on the page."""
        return (self.width_mm - self.places.columns * self.column_mm) / 2 + column * self.column_mm

    def of(self, animal: int) -> tuple[float, float]:
        """The centre of an animal."""
        return self.x(self.places.column[animal]), self.centre_mm[self.places.row[animal]]

    def lane(self, gap: int, lane: int) -> float:
        """A lane of the gap below a row."""
        return self.first_lane_mm[gap] + lane * LANE_MM


def frame(places: Places, lanes: Lanes, text: Mapping[int, AnimalText]) -> Frame:
    """Fit a chart on A4 landscape, or on as large a page as it takes to be read."""
    inside = A4_MM[0] - 2 * MARGIN_MM
    column = min(MOST_COLUMN_MM, max(LEAST_COLUMN_MM, inside / places.columns))
    words = tuple(_row_words(places, row, column, text) for row in range(places.rows))
    needed = _heights(words, lanes, 0.0)
    slack = (A4_MM[1] - needed[2]) / max(1, places.rows - 1)
    centres, first_lanes, height = _heights(words, lanes, min(MOST_SLACK_MM, max(0.0, slack)))
    return Frame(
        places=places,
        width_mm=max(A4_MM[0], places.columns * column + 2 * MARGIN_MM),
        height_mm=max(A4_MM[1], height),
        column_mm=column,
        words=words,
        centre_mm=centres,
        first_lane_mm=first_lanes,
    )


def _row_words(
    places: Places, row: int, column_mm: float, text: Mapping[int, AnimalText]
) -> RowWords:
    """Set words down from left to right, each on the first of two levels with room for it."""
    beside = places.neighbours(row)
    at = {animal: places.column[animal] * column_mm for animal in beside}
    need = {
        animal: max(map(len, text[animal].lines)) * TEXT_MM * LETTER_WIDTH + 1 for animal in beside
    }
    end = [float("-inf"), float("-inf")]
    of = {}
    for animal in beside:
        half = [min(at[animal] - last, need[animal] / 2) for last in end]
        level = 0 if half[0] >= need[animal] / 2 else int(np.argmax(half))
        of[animal] = Words(level, 2 * half[level] - 1)
        end[level] = at[animal] + half[level]
    levels = 1 + max(words.level for words in of.values())
    lines = max(len(text[animal].lines) for animal in beside)
    return RowWords(of, levels, lines, above=levels > 1 and row == 0)


def _heights(
    words: tuple[RowWords, ...], lanes: Lanes, slack_mm: float
) -> tuple[tuple[float, ...], tuple[float, ...], float]:
    """Centres of the rows, first lanes of the gaps, and the height of it all."""
    centres, first_lanes = [], []
    y = MARGIN_MM + TITLE_MM
    for row, here in enumerate(words):
        y += here.height_mm if here.above else 0
        centres.append(y + SYMBOL_MM / 2)
        y += SYMBOL_MM + (0 if here.above else here.height_mm)
        first_lanes.append(y + CLEAR_MM + slack_mm / 2)
        y += 2 * CLEAR_MM + LANE_MM * max(0, lanes.count(row) - 1) + slack_mm
    return tuple(centres), tuple(first_lanes), y - slack_mm + KEY_MM + MARGIN_MM
