"""Pedigree charts."""

from io import BytesIO
from itertools import combinations
from xml.etree import ElementTree as ET

import numpy as np
import pytest
from fpdf import FPDF
from hypothesis import given, settings
from hypothesis import strategies as st
from PIL import Image

from colony.papers.chart.chart import draw_chart
from colony.papers.chart.drawing import Drawing, Stroke, Symbol, shortened
from colony.papers.chart.members import Scope, chart_members
from colony.papers.chart.places import chart_places
from colony.papers.chart.printing import DOTS_PER_INCH, chart_pdf, chart_png, embed_face
from colony.papers.chart.svg import chart_svg
from colony.pedigree.graph.graph import Doubt, Pedigree

DOTS_PER_MM = DOTS_PER_INCH / 25.4
SVG = "{http://www.w3.org/2000/svg}"


def a_family() -> Pedigree:
    """A pup of first cousins, whose own pup has a doubtful sire; Dora and Sam are met twice."""
    tags = ("Sam", "Dora", "Tom", "Eva", "Ada", "Bert", "Cleo", "Gus", "Xena", "Max", "Pup")
    dam = {
        "Ada": "Dora",
        "Bert": "Dora",
        "Cleo": "Ada",
        "Gus": "Eva",
        "Xena": "Cleo",
        "Pup": "Xena",
    }
    sire = {"Ada": "Sam", "Bert": "Sam", "Cleo": "Tom", "Gus": "Bert", "Xena": "Gus"}
    return Pedigree(
        tags=tags,
        dam=np.array([tags.index(dam[tag]) if tag in dam else -1 for tag in tags]),
        sire=np.array([tags.index(sire[tag]) if tag in sire else -1 for tag in tags]),
        sexes="MFMFFMFMFMU",
        doubts=(Doubt((10,), (9, 7, -1), (0.5, 0.3, 0.2)),),
    )


XENA = Scope(8, up=4, down=1, dead=frozenset({0, 2}))


@st.composite
def charted(draw: st.DrawFn) -> tuple[Pedigree, Scope]:
    """Random pedigrees, much inbred, with doubts, and a chart of one of the animals."""
    n = draw(st.integers(3, 14))
    dam, sire, doubts = np.full(n, -1), np.full(n, -1), []
    for pup in range(2, n):
        dam[pup] = draw(st.sampled_from([*range(0, pup, 2), -1]))
        males = list(range(1, pup, 2))
        if draw(st.integers(0, 4)):
            sire[pup] = draw(st.sampled_from([*males, -1]))
        else:
            possible = draw(st.lists(st.sampled_from(males), min_size=1, max_size=3, unique=True))
            shares = (1 / (len(possible) + 1),) * (len(possible) + 1)
            doubts.append(Doubt((pup,), (*possible, -1), shares))
    tags = tuple(f"R{one}" for one in range(n))
    pedigree = Pedigree(tags, dam, sire, "FM" * (n // 2) + "F" * (n % 2), tuple(doubts))
    up, down = draw(st.integers(0, 5)), draw(st.integers(0, 3))
    return pedigree, Scope(draw(st.integers(0, n - 1)), up, down)


def test_everybody_is_drawn_once_though_two_branches_meet() -> None:
    """Dora and Sam are grandparents of both parents, and stand on the chart once."""
    members = chart_members(a_family(), XENA)
    assert sorted(members.generation) == list(range(11))
    assert len(draw_chart(a_family(), XENA).symbols) == 11
    (top,) = [family for family in members.families if family.parents == (0, 1)]
    assert sorted(top.pups) == [4, 5]


def test_only_the_generations_asked_for_are_drawn() -> None:
    """Two up, none down: parents and grandparents."""
    members = chart_members(a_family(), Scope(8, up=2))
    assert members.generation == {8: 0, 7: 1, 6: 1, 5: 2, 3: 2, 4: 2, 2: 2}


@settings(max_examples=150, deadline=None)
@given(charted())
def test_parents_stand_above_their_pups_and_nobody_on_another(case: tuple[Pedigree, Scope]) -> None:
    """In every pedigree, however inbred; neighbours keep a column between them."""
    members = chart_members(*case)
    places = chart_places(members)
    assert set(places.row) == set(places.column) == set(members.generation)
    for family in members.families:
        for parent in family.parents:
            assert all(places.row[parent] < places.row[pup] for pup in family.pups)
    for one, other in combinations(places.row, 2):
        if places.row[one] == places.row[other]:
            assert abs(places.column[one] - places.column[other]) >= 1 - 1e-9


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


def test_five_full_generations_fit_on_a4_in_a_size_that_can_be_read() -> None:
    """62 ancestors; no word is cut, and none is set smaller than 6 points."""
    tags, parents = ["X"], {0: (-1, -1)}
    for pup in range(31):
        parents[pup] = (len(tags), len(tags) + 1)
        tags += [f"LPO-21-{pup:02d}d", f"LPO-21-{pup:02d}s"]
    dam = np.array([parents.get(one, (-1, -1))[0] for one in range(63)])
    sire = np.array([parents.get(one, (-1, -1))[1] for one in range(63)])
    pedigree = Pedigree(tuple(tags), dam, sire, "U" + "FM" * 31)
    drawing = draw_chart(pedigree, Scope(0, up=5))
    assert (drawing.width_mm, drawing.height_mm) == (297, 210)
    assert {label.text for label in drawing.labels} >= set(tags)
    assert min(label.height_mm for label in drawing.labels) * 72 / 25.4 >= 6


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
    known = embed_face(FPDF())
    assert [letter for letter in letters if ord(letter) not in known] == []


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


def test_a_tag_too_long_for_its_place_is_cut_with_an_ellipsis() -> None:
    """And one that fits is not."""
    assert shortened("a" * 40, 2.0, 10.4) == "a" * 9 + "\N{HORIZONTAL ELLIPSIS}"
    assert shortened("a" * 10, 2.0, 10.4) == "a" * 10


def test_a_chart_wider_than_a4_gets_a_larger_page() -> None:
    """Fifty pups stay as far apart as can be read."""
    pups = 50
    pedigree = Pedigree(
        ("Dam", "Sire", *(f"P{one}" for one in range(pups))),
        np.array([-1, -1] + [0] * pups),
        np.array([-1, -1] + [1] * pups),
        "FM" + "U" * pups,
    )
    drawing = draw_chart(pedigree, Scope(0, up=1, down=1))
    assert drawing.width_mm > 400
    assert len(drawing.symbols) == pups + 2


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
