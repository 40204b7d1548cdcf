"""Pedigree charts as a whole."""

from itertools import combinations

from chart_pedigrees import XENA, a_family, charted
from hypothesis import given, settings

from colony.papers.chart.chart import draw_chart
from colony.papers.chart.drawing import Stroke, Symbol
from colony.papers.chart.members import Scope, chart_members
from colony.pedigree.graph.graph import Pedigree


def test_everybody_is_drawn_once_though_two_branches_meet() -> None:
    """Dora and Sam are grandparents of both parents, and stand on the chart once."""
    assert len(draw_chart(a_family(), XENA).symbols) == 11


@settings(max_examples=150, deadline=None)
@given(charted())
def test_no_line_runs_through_a_symbol(case: tuple[Pedigree, Scope]) -> None:
    """A line touches the animals at its ends and no other."""
    drawing = draw_chart(*case)
    for line in drawing.lines:
        for symbol in drawing.symbols:
            assert not runs_through(line, symbol), (line, symbol)


@settings(max_examples=50, deadline=None)
@given(charted())
def test_all_stands_on_the_page(case: tuple[Pedigree, Scope]) -> None:
    """Nothing is clipped."""
    drawing = draw_chart(*case)
    for line in (*drawing.lines, *drawing.marks):
        assert 0 < min(line.x1_mm, line.x2_mm) <= max(line.x1_mm, line.x2_mm) < drawing.width_mm
        assert 0 < min(line.y1_mm, line.y2_mm) <= max(line.y1_mm, line.y2_mm) < drawing.height_mm
    for label in drawing.labels:
        if label.middle:
            left, top, right, bottom = label.ground_mm
            assert 0 < left < right < drawing.width_mm
            assert 0 < top < bottom < drawing.height_mm


@settings(max_examples=50, deadline=None)
@given(charted())
def test_words_do_not_touch_words_of_another(case: tuple[Pedigree, Scope]) -> None:
    """Every tag and figure can be read."""
    words = [label for label in draw_chart(*case).labels if label.middle and "%" not in label.text]
    for one, other in combinations(words, 2):
        a, b = one.ground_mm, other.ground_mm
        apart = a[2] <= b[0] or b[2] <= a[0] or a[3] <= b[1] + 0.1 or b[3] <= a[1] + 0.1
        assert apart, (one, other)


def test_words_say_f_its_range_and_what_is_known() -> None:
    """Xena is inbred for certain, her pup perhaps; a founder has no F to speak of."""
    text = [label.text for label in draw_chart(a_family(), XENA).labels]
    assert text[: text.index("Pedigree of Xena")].count("founder") == 5
    after = {tag: text[text.index(tag) + 1 : text.index(tag) + 4] for tag in ("Xena", "Pup")}
    assert after["Xena"][:2] == ["F 0.0625", "2.5 gen"]
    assert after["Pup"] == ["F 0.0844", "0.000\N{EN DASH}0.281", "2.4 gen"]
    assert {"50%", "30%"} <= set(text)


def test_the_signs_of_human_genetics_are_used() -> None:
    """Bennett et al. 1995, 2022: shapes, a stroke for dead, double lines, an arrow; dashes ours."""
    drawing = draw_chart(a_family(), XENA)
    assert sorted(symbol.sex for symbol in drawing.symbols) == sorted("MFMFFMFMFMU")
    assert len(drawing.marks) == 2 + 3
    assert sum(symbol.bold for symbol in drawing.symbols) == 1
    assert any(line.dashed for line in drawing.lines)
    families = chart_members(a_family(), XENA).families
    assert {family.parents: set(family.related) for family in families if family.related} == {
        (7, 6): {7},
        (9, 7, 8): {7},
    }
    gus, cleo = (drawing.symbols[at] for at in order_of(a_family(), "Gus", "Cleo"))
    between = [
        line
        for line in drawing.lines
        if line.y1_mm == line.y2_mm
        and abs(line.y1_mm - gus.y_mm) < 1
        and gus.x_mm < line.x1_mm < line.x2_mm < cleo.x_mm
    ]
    assert len(between) == 2


def runs_through(line: Stroke, symbol: Symbol) -> bool:
    """Whether a line crosses a symbol and goes on: neither end lies inside it."""
    half = symbol.size_mm / 2 - 0.05
    ends = ((line.x1_mm, line.y1_mm), (line.x2_mm, line.y2_mm))
    if any(
        abs(x - symbol.x_mm) <= half + 0.1 and abs(y - symbol.y_mm) <= half + 0.1 for x, y in ends
    ):
        return False
    (x1, y1), (x2, y2) = ends
    return (
        min(x1, x2) < symbol.x_mm + half
        and max(x1, x2) > symbol.x_mm - half
        and min(y1, y2) < symbol.y_mm + half
        and max(y1, y2) > symbol.y_mm - half
    )


def order_of(pedigree: Pedigree, *tags: str) -> list[int]:
    """Where the symbols of some tags stand in the drawing of Xena."""
    members = list(chart_members(pedigree, XENA).generation)
    return [members.index(pedigree.tags.index(tag)) for tag in tags]
