"""What a growth curve shows, before it is drawn."""

import pytest
from growth_pictures import BORN, day, lone_picture, picture, plain_picture

from colony.papers.growth.picture import GrowthPicture


def test_the_species_line_shows_the_published_growth() -> None:
    """The drawn species curve ends at 21.84 cm a year after 14.9 cm (Charvet et al. 2018)."""
    last, width = picture().species[-1]
    assert last == day(365)
    assert width / 10 == pytest.approx(21.84, abs=0.01)


def test_the_edges_are_whole_two_centimetres_around_all_that_is_drawn() -> None:
    """140 and 199 mm lie within 14 and 20 cm; a width wanted of 20 cm needs 22."""
    plain = plain_picture()
    assert (plain.bottom_mm, plain.top_mm) == (140, 200)
    assert (plain.first_day, plain.last_day) == (day(0), day(10))
    wanted = GrowthPicture("p", plain.measured, (), (), {}, (), 200)
    assert (wanted.bottom_mm, wanted.top_mm) == (140, 220)


def test_a_pup_of_one_width_has_a_picture() -> None:
    """Its edges are a day and some centimetres apart, so that it can be drawn."""
    alone = lone_picture()
    assert alone.measured == ((BORN, 150),)
    assert alone.last_day > alone.first_day
    assert alone.top_mm > alone.bottom_mm


def test_a_mate_without_a_width_is_left_out() -> None:
    """Of three litter-mates two were measured."""
    assert list(picture().mates) == ["m1", "m2"]
