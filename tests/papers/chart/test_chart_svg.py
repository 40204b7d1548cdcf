"""Charts as SVG."""

from xml.etree import ElementTree as ET

from chart_pedigrees import XENA, a_family

from colony.papers.chart.chart import draw_chart
from colony.papers.chart.drawing import Drawing, Stroke, Symbol
from colony.papers.chart.svg import chart_svg
from colony.pedigree.graph.graph import Pedigree

SVG = "{http://www.w3.org/2000/svg}"


def test_the_millimetres_of_a_drawing_are_those_of_its_svg() -> None:
    """A dashed line and a circle of 6 mm, on a page of 50 by 30."""
    line, circle = Stroke(1, 2, 3.5, 4, dashed=True), Symbol(10, 20, 6, "F")
    root = ET.fromstring(chart_svg(Drawing("A", 50, 30, (line,), (circle,), (), ())))  # noqa: S314
    assert root.get("viewBox") == "0 0 50 30"
    (drawn,), (round_one,) = root.iter(f"{SVG}line"), root.iter(f"{SVG}circle")
    assert [drawn.get(name) for name in ("x1", "y1", "x2", "y2")] == ["1", "2", "3.5", "4"]
    assert drawn.get("stroke-dasharray")
    assert [round_one.get(name) for name in ("cx", "cy", "r")] == ["10", "20", "3"]


def test_an_svg_is_well_formed_and_shows_any_tag_as_text() -> None:
    """Markup in a tag stays text; a character that XML forbids becomes a question mark."""
    family = a_family()
    tags = ('<b>&"', "\x07bell", *family.tags[2:])
    named = Pedigree(tags, family.dam, family.sire, family.sexes, family.doubts)
    root = ET.fromstring(chart_svg(draw_chart(named, XENA)))  # noqa: S314 - written here
    text = [element.text for element in root.iter(f"{SVG}text")]
    assert '<b>&"' in text
    assert root.get("aria-label") == "Pedigree of Xena"
    assert "?bell" in text
    assert len(list(root.iter(f"{SVG}circle"))) == 5
    assert len(list(root.iter(f"{SVG}polygon"))) == 6
    assert (root.get("width"), root.get("height")) == ("297mm", "210mm")
