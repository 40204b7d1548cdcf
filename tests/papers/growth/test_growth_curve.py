"""The growth curve as SVG and as characters."""

import re
from datetime import date, timedelta
from xml.etree import ElementTree as ET

import pytest

from colony.papers.growth.curve import growth_svg
from colony.papers.growth.picture import Growing, GrowthPicture, growth_picture
from colony.papers.growth.text import MARKS, growth_text
from colony.planning.pups.growth import GrowthPrior, Width, first_curve

BORN = date(2024, 1, 1)
SVG = "{http://www.w3.org/2000/svg}"
LEOPOLDI = GrowthPrior(763.06, 0.12, birth_mm=149)
"""Females of P. leopoldi: Charvet et al. 2018, J. Fish Biol. 92:1985-1999."""


def day(number: int) -> date:
    """Count days from birth."""
    return BORN + timedelta(days=number)


def picture(tag: str = "p1", *, doubtful: bool = True) -> GrowthPicture:
    """Draw a pup of four widths with two litter-mates, a year ahead."""
    widths = [Width(day(n), 149 + n / 4) for n in (0, 30, 60, 90)]
    curve = first_curve(widths, LEOPOLDI, born=None)
    assert curve is not None
    return growth_picture(
        Growing(tag, widths, [Width(day(75), 150)] if doubtful else [], curve, LEOPOLDI),
        {"m1": [Width(day(0), 140), Width(day(60), 160)], "m2": [Width(day(30), 155)], "m3": []},
        until=day(365),
        wanted_mm=180,
    )


def points(svg: str, name: str) -> list[list[tuple[float, float]]]:
    """Read the polylines of one class back from the SVG."""
    found = ET.fromstring(svg).iter(f"{SVG}polyline")  # noqa: S314 - our own drawing
    return [
        [
            (float(x), float(y))
            for x, y in (pair.split(",") for pair in line.get("points", "").split())
        ]
        for line in found
        if line.get("class") == name
    ]


def test_the_species_line_shows_the_published_growth() -> None:
    """The drawn species curve ends at 21.84 cm a year after 14.9 cm (Charvet et al. 2018)."""
    last, width = picture().species[-1]
    assert last == day(365)
    assert width / 10 == pytest.approx(21.84, abs=0.01)


def test_the_svg_holds_every_width_and_every_line() -> None:
    """Four points, one doubtful cross, two mates, one forecast within its band."""
    svg = growth_svg(picture())
    root = ET.fromstring(svg)  # noqa: S314 - our own drawing
    assert len(list(root.iter(f"{SVG}circle"))) == 4
    assert len(points(svg, "mate")) == 2
    assert len(points(svg, "species")) == len(points(svg, "forecast")) == 1
    assert sum(path.get("class") == "doubtful" for path in root.iter(f"{SVG}path")) == 1


def test_lines_rise_as_the_widths_do_and_stay_in_the_picture() -> None:
    """Later and wider lies further right and higher up, inside the frame."""
    for name in ("own", "forecast", "species"):
        (line,) = points(growth_svg(picture()), name)
        assert line == sorted(line)
        heights = [y for _, y in line]
        assert heights == sorted(heights, reverse=True)
        assert all(0 <= x <= 720 and 0 <= y <= 420 for x, y in line)


def test_the_drawing_of_characters_fits_its_columns() -> None:
    """No line is longer than asked for; marks of every kind are there, measured on top."""
    drawn = growth_text(picture(), columns=70, rows=16)
    assert max(len(line) for line in drawn.splitlines()) <= 70
    body = [line for line in drawn.splitlines() if "│" in line]
    assert len(body) == 16
    for name in MARKS:
        assert any(MARKS[name] in line for line in body), name
    assert sum(line.count(MARKS["own"]) for line in body) == 4


def test_characters_rise_from_left_to_right() -> None:
    """The forecast's marks climb."""
    body = [line for line in growth_text(picture()).splitlines() if "│" in line]
    ends = [line.rindex(MARKS["forecast"]) for line in body if MARKS["forecast"] in line]
    assert ends == sorted(ends, reverse=True)


def test_a_tag_is_drawn_and_never_obeyed() -> None:
    """Markup and escape codes in a tag come out as plain signs."""
    evil = "<b>&\x1b[31m"
    svg, drawn = growth_svg(picture(evil)), growth_text(picture(evil))
    assert "\x1b" not in svg + drawn
    assert "<b>" not in svg
    assert "&lt;b&gt;&amp;?[31m" in svg


def test_a_pup_of_one_width_can_be_drawn() -> None:
    """One width, no mates, nothing wanted: still a picture, with neither in its legend."""
    curve = first_curve([Width(BORN, 150)], LEOPOLDI, born=None)
    assert curve is not None
    alone = growth_picture(Growing("p", [Width(BORN, 150)], [], curve, LEOPOLDI), {}, until=BORN)
    assert "litter-mates" not in growth_svg(alone) + growth_text(alone)
    assert re.search(r"\d+\.\d │", growth_text(alone))
    assert alone.top_mm > alone.bottom_mm


def test_a_mended_width_moves_the_picture() -> None:
    """The drawing is made of the records and of nothing else."""
    assert growth_svg(picture()) == growth_svg(picture())
    assert growth_svg(picture()) != growth_svg(picture(doubtful=False))
