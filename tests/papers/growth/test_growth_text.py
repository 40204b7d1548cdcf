"""The growth curve as characters."""

import re

from growth_pictures import lone_picture, picture, plain_picture

from colony.papers.growth.text import MARKS, growth_text


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


def test_a_mark_stands_in_the_cell_of_its_day_and_width() -> None:
    """14 cm at the bottom left, 19.9 cm ten days later at the top right; rows of 1 cm."""
    body = growth_text(plain_picture(), columns=40, rows=6).splitlines()
    assert body[1] == " 19.5 │" + " " * 32 + "●"
    assert body[4] == " 16.5 │"
    assert body[6] == "      │●"


def test_a_tag_in_characters_is_drawn_and_never_obeyed() -> None:
    """An escape code in a tag comes out as a plain sign."""
    drawn = growth_text(picture("<b>&\x1b[31m"))
    assert "\x1b" not in drawn
    assert drawn.startswith("<b>&?[31m: ")


def test_a_pup_of_one_width_is_drawn_in_characters() -> None:
    """No mates, nothing wanted: still a picture, with neither in its legend."""
    drawn = growth_text(lone_picture())
    assert "litter-mates" not in drawn
    assert "wanted" not in drawn
    assert re.search(r"\d+\.\d │", drawn)
