"""Symbols and labels on paper."""

import pytest

from colony.papers.chart.drawing import Label, Symbol, shortened


def test_a_square_has_its_corners_half_its_size_from_its_middle() -> None:
    """A male of 6 mm around (10, 20), from the top left on."""
    assert Symbol(10, 20, 6, "M").corners_mm == ((7, 17), (13, 17), (13, 23), (7, 23))


def test_a_diamond_stands_on_its_corner() -> None:
    """Its corners are 1.15 times as far out: 3.45 mm above, right, below and left."""
    corners = Symbol(10, 20, 6, "U").corners_mm
    wanted = ((10, 16.55), (13.45, 20), (10, 23.45), (6.55, 20))
    for corner, right in zip(corners, wanted, strict=True):
        assert corner == pytest.approx(right)


def test_a_label_has_its_ground_around_its_middle() -> None:
    """Five letters of 2 mm are 5.2 mm wide; a fifth of the height hangs below the base line."""
    assert Label(50, 30, "Gamma", 2).ground_mm == pytest.approx((47.4, 28.4, 52.6, 30.4))


def test_a_tag_too_long_for_its_place_is_cut_with_an_ellipsis() -> None:
    """And one that fits is not."""
    assert shortened("a" * 40, 2.0, 10.4) == "a" * 9 + "\N{HORIZONTAL ELLIPSIS}"
    assert shortened("a" * 10, 2.0, 10.4) == "a" * 10
