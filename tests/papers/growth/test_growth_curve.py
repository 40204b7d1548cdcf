"""The growth curve as SVG."""

from xml.etree import ElementTree as ET

import pytest
from growth_pictures import lone_picture, picture, plain_picture

from colony.papers.growth.curve import growth_svg

SVG = "{http://www.w3.org/2000/svg}"


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


def test_a_width_lies_where_its_day_and_its_millimetres_say() -> None:
    """The frame is 56 to 704 across and 344 to 40 up; 59 of 60 mm are 298.9 of its 304."""
    (line,) = points(growth_svg(plain_picture()), "own")
    first, last = line
    assert first == pytest.approx((56, 344))
    assert last == pytest.approx((704, 45.1))


def test_a_tag_is_drawn_and_never_obeyed() -> None:
    """Markup and escape codes in a tag come out as plain signs."""
    svg = growth_svg(picture("<b>&\x1b[31m"))
    assert "\x1b" not in svg
    assert "<b>" not in svg
    assert "&lt;b&gt;&amp;?[31m" in svg


def test_a_pup_of_one_width_can_be_drawn() -> None:
    """One width, no mates, nothing wanted: still a picture, with neither in its legend."""
    svg = growth_svg(lone_picture())
    assert "litter-mates" not in svg
    assert "width wanted" not in svg
    assert svg.count("<circle") == 1


def test_a_mended_width_moves_the_picture() -> None:
    """The drawing is made of the records and of nothing else."""
    assert growth_svg(picture()) == growth_svg(picture())
    assert growth_svg(picture()) != growth_svg(picture(doubtful=False))
