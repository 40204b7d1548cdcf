"""A pedigree chart: an animal, its ancestors and descendants, by the standard symbols."""

from collections.abc import Iterator, Mapping

from colony.papers.chart.drawing import Drawing, Label, Stroke, Symbol, shortened
from colony.papers.chart.frame import (
    KEY_MM,
    MARGIN_MM,
    SYMBOL_MM,
    TEXT_LINE_MM,
    TEXT_MM,
    Frame,
    RowWords,
    Words,
    frame,
)
from colony.papers.chart.members import Scope, chart_members
from colony.papers.chart.places import chart_places
from colony.papers.chart.routes import route_families
from colony.papers.chart.strokes import share_labels, strokes
from colony.papers.chart.text import AnimalText, chart_text
from colony.pedigree.graph.graph import Pedigree

TITLE_TEXT_MM, KEY_TEXT_MM = 4.5, 2.2
KEY = (
    "Square: male. Circle: female. Diamond: sex not known. Stroke: dead. Arrow: the animal asked for.",
    "Double line: related parents. Dashed: sire in doubt, with his share. F: inbreeding, with its range. gen: known generations (complete equivalents).",
)


def draw_chart(pedigree: Pedigree, scope: Scope) -> Drawing:
    """Draw an animal with its ancestors and descendants.

    Everybody is drawn once: where a branch meets one that is drawn already, its line leads
    there. F and the known generations stand with each. The page is A4 landscape, or larger when
    one of that size could not be read.
    """
    subject = scope.subject
    members = chart_members(pedigree, scope)
    places = chart_places(members)
    routes, lanes = route_families(members.families, places)
    text = chart_text(pedigree, members)
    page = frame(places, lanes, text)
    title = f"Pedigree of {pedigree.tags[subject]}"
    symbols = {
        animal: Symbol(*page.of(animal), SYMBOL_MM, pedigree.sexes[animal], bold=animal == subject)
        for animal in members.generation
    }
    marks = [_stroke(symbols[animal]) for animal in members.generation if animal in scope.dead]
    return Drawing(
        title=title,
        width_mm=page.width_mm,
        height_mm=page.height_mm,
        lines=(
            *_leaders(page),
            *(line for route in routes for line in strokes(route, page)),
        ),
        symbols=tuple(symbols.values()),
        marks=(*marks, *_arrow(symbols[subject])),
        labels=(
            *(label for route in routes for label in share_labels(route, page)),
            *_words(page, text),
            Label(MARGIN_MM, MARGIN_MM + TITLE_TEXT_MM, title, TITLE_TEXT_MM, middle=False),
            *_key(page),
        ),
    )


def _words(page: Frame, text: Mapping[int, AnimalText]) -> Iterator[Label]:
    for row in page.words:
        for animal, words in row.of.items():
            x, y = page.of(animal)
            lines = text[animal].lines
            for at, line in enumerate(lines):
                base = y + _words_top(row, words, len(lines)) + (at + 0.8) * TEXT_LINE_MM
                yield Label(x, base, shortened(line, TEXT_MM, words.room_mm), TEXT_MM)


def _words_top(row: RowWords, words: Words, lines: int) -> float:
    """From the centre of a symbol to the top of its words, down."""
    beyond = SYMBOL_MM / 2 + 0.7 + words.level * row.lines * TEXT_LINE_MM
    return -beyond - lines * TEXT_LINE_MM if row.above else beyond


def _leaders(page: Frame) -> Iterator[Stroke]:
    """Thin lines from symbols to words on the second level."""
    for row in page.words:
        for animal, words in row.of.items():
            x, y = page.of(animal)
            if words.level:
                end = -_words_top(row, words, 0) if row.above else _words_top(row, words, 0)
                yield Stroke(x, y, x, y - end if row.above else y + end, width_mm=0.1)


def _stroke(symbol: Symbol) -> Stroke:
    reach = symbol.size_mm * 0.72
    x, y = symbol.x_mm, symbol.y_mm
    return Stroke(x - reach, y + reach, x + reach, y - reach)


def _arrow(symbol: Symbol) -> Iterator[Stroke]:
    """The arrow at the lower left that points out whom the chart is about."""
    tip = symbol.x_mm - symbol.size_mm * 0.6, symbol.y_mm + symbol.size_mm * 0.35
    yield Stroke(*tip, tip[0] - 4, tip[1] + 1.8, width_mm=0.4)
    yield Stroke(*tip, tip[0] - 1.7, tip[1] - 0.3, width_mm=0.4)
    yield Stroke(*tip, tip[0] - 0.9, tip[1] + 1.4, width_mm=0.4)


def _key(page: Frame) -> Iterator[Label]:
    for at, line in enumerate(KEY):
        y = page.height_mm - MARGIN_MM - KEY_MM / 2 + at * TEXT_LINE_MM * 1.3
        yield Label(MARGIN_MM, y, line, KEY_TEXT_MM, middle=False)
