"""Charts as PDF and PNG."""

from io import BytesIO

import numpy as np
import pytest
from chart_pedigrees import XENA, a_family
from fpdf import FPDF
from PIL import Image

from colony.papers.chart.chart import draw_chart
from colony.papers.chart.drawing import Drawing, Symbol
from colony.papers.chart.printing import DOTS_PER_INCH, chart_pdf, chart_png, embed_face, finished
from colony.pedigree.graph.graph import Pedigree

DOTS_PER_MM = DOTS_PER_INCH / 25.4


def test_a_pdf_has_one_page_of_that_size_with_its_face_inside() -> None:
    """A4 landscape in points, and an embedded face, so that any letter prints."""
    family = a_family()
    named = Pedigree(("Łucja", "Дора", *family.tags[2:]), family.dam, family.sire, family.sexes)
    pdf = chart_pdf(draw_chart(named, XENA))
    assert pdf.startswith(b"%PDF-")
    assert pdf.count(b"/Type /Page\n") == 1
    assert b"/MediaBox [0 0 841.89 595.28]" in pdf
    assert b"/FontFile2" in pdf


def test_a_letter_that_the_face_lacks_does_not_vanish_from_a_pdf(
    caplog: pytest.LogCaptureFixture,
) -> None:
    """It is a question mark there; fpdf2 would leave it out and write so on stderr, for one."""
    family = a_family()
    named = Pedigree(("紅", *family.tags[1:]), family.dam, family.sire, family.sexes)
    chart_pdf(draw_chart(named, XENA))
    assert caplog.messages == []


@pytest.mark.parametrize(
    "letters",
    [
        "ÀĐĲŁŒŠŽăơệşțẞ",
        "ΆΩάώϊ",
        "ЁЂҐабяёџґ",
        "\N{EN DASH}\N{MULTIPLICATION SIGN}\N{MINUS SIGN}…±÷µ²½≤≥≈•“«€♀♂○□→",
    ],
)
def test_the_face_has_the_letters_of_names_and_the_signs_of_charts(letters: str) -> None:
    """Latin, Greek and Cyrillic."""
    pdf = FPDF()
    pdf.add_page()
    known = embed_face(pdf)
    assert [letter for letter in letters if ord(letter) not in known] == []
    assert finished(pdf).startswith(b"%PDF-")


def test_a_png_has_ink_where_the_symbols_are() -> None:
    """200 dots an inch; the left edge of each square is black and its middle white."""
    drawing = draw_chart(a_family(), XENA)
    image = Image.open(_file(chart_png(drawing)))
    assert image.size == (round(297 * DOTS_PER_MM), round(210 * DOTS_PER_MM))
    squares = [symbol for symbol in drawing.symbols if symbol.sex == "M"]
    alive = [symbol for symbol in squares if not is_struck(drawing, symbol)]
    assert alive
    for symbol in alive:
        middle = symbol.x_mm * DOTS_PER_MM, symbol.y_mm * DOTS_PER_MM
        edge = (symbol.x_mm - symbol.size_mm / 2 + 0.15) * DOTS_PER_MM
        assert image.getpixel((round(middle[0]), round(middle[1]))) == 255
        assert darkest(image, edge, middle[1]) < 80


def is_struck(drawing: Drawing, symbol: Symbol) -> bool:
    """Whether the stroke for dead, or the arrow, lies on a symbol."""
    return any(
        abs((line.x1_mm + line.x2_mm) / 2 - symbol.x_mm) < symbol.size_mm
        and abs((line.y1_mm + line.y2_mm) / 2 - symbol.y_mm) < symbol.size_mm
        for line in drawing.marks
    )


def darkest(image: Image.Image, x: float, y: float) -> int:
    """The darkest dot near a place."""
    left, top = round(x) - 2, round(y)
    return int(np.asarray(image)[top, left : left + 5].min())


def _file(content: bytes) -> BytesIO:
    return BytesIO(content)
