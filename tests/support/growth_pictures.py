"""Pups whose growth is drawn."""

from datetime import date, timedelta

from colony.papers.growth.picture import Growing, GrowthPicture, growth_picture
from colony.planning.pups.growth import GrowthPrior, Width, first_curve

BORN = date(2024, 1, 1)
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


def lone_picture() -> GrowthPicture:
    """Draw a pup of one width, without mates and without a width that is wanted."""
    curve = first_curve([Width(BORN, 150)], LEOPOLDI, born=None)
    assert curve is not None
    return growth_picture(Growing("p", [Width(BORN, 150)], [], curve, LEOPOLDI), {}, until=BORN)


def plain_picture() -> GrowthPicture:
    """Two widths ten days apart and nothing else: the edges are at 140 and 200 mm."""
    return GrowthPicture("p", ((day(0), 140), (day(10), 199)), (), (), {}, (), None)
