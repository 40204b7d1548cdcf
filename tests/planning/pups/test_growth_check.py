"""Forecasts held against the widths that came."""

from datetime import date, timedelta

import numpy as np

from colony.planning.pups.growth import GrowthPrior, Width
from colony.planning.pups.growth_check import MOST, calibrated, held_out
from colony.planning.pups.growth_data import Grower
from colony.planning.pups.growth_law import width_mm

BORN = date(2024, 1, 1)
PRIOR = GrowthPrior(763.06, 0.12, birth_mm=149)


def colony(wild_mm: float) -> list[Grower]:
    """Twelve pups that follow the law, their last width off by so much to either side."""
    chance = np.random.default_rng(5)
    growers = []
    for n in range(12):
        seen = []
        for m in range(4):
            grown = width_mm(149.0, 0.3, 763.06 - 149, m * 60 / 365.25) + chance.normal(0, 2)
            off = wild_mm * (-1) ** n if m == 3 else 0.0
            seen.append(Width(BORN + timedelta(days=60 * m), grown + off))
        growers.append(Grower(f"p{n}", "leopoldi", "F", f"L{n // 4}", BORN, tuple(seen), PRIOR))
    return growers


def test_a_colony_that_follows_the_law_needs_no_stretch() -> None:
    """All last widths are held out, most lie inside, and intervals stay as they are."""
    checked = held_out(colony(0.0))
    assert checked.widths == 12
    assert checked.covered >= 0.8
    assert checked.stretch == 1.0


def test_surprises_stretch_the_intervals_to_a_limit() -> None:
    """Last widths 60 mm off are outside; the fitted curves are wider by the stretch, 4 at most."""
    checked = held_out(colony(60.0))
    assert checked.covered < 0.5
    assert 1.0 < checked.stretch <= MOST
    calm, _ = calibrated(colony(0.0))
    wild, again = calibrated(colony(60.0))
    assert again == checked
    assert wild.curves["p0"].triangle[0] > calm.curves["p0"].triangle[0]


def test_nothing_to_hold_out_is_nothing_covered() -> None:
    """Pups of one width have no forecast to check: no width, and no stretch."""
    alone = Grower("a", "leopoldi", "F", "", BORN, (Width(BORN, 150.0),), PRIOR)
    checked = held_out([alone])
    assert (checked.widths, checked.covered, checked.stretch) == (0, 0.0, 1.0)
