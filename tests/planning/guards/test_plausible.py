"""What can hardly be meant is doubted, and what can be is not."""

import pytest

from colony.planning.guards.plausible import (
    doubts_of_change,
    doubts_of_first_width,
    doubts_of_forecast,
    doubts_of_growth,
    doubts_of_litter,
    doubts_of_meal,
    odd_growth,
)


@pytest.mark.parametrize(
    ("grown_mm", "a_week", "odd"),
    [(-4, -28, None), (-5, -5, "shrank"), (4, 28, None), (30, 20, None), (30, 21, "leapt")],
)
def test_growth_is_odd_beyond_measuring_error_and_the_fastest_ray(
    grown_mm: int, a_week: float, odd: str | None
) -> None:
    """Half a centimetre is the tape; more than 2 cm a week is another animal."""
    assert odd_growth(grown_mm, a_week) == odd
    assert bool(doubts_of_growth("Alma", grown_mm, a_week)) is (odd is not None)


@pytest.mark.parametrize(
    ("width_mm", "doubted"), [(69, True), (70, False), (950, False), (960, True)]
)
def test_a_first_width_is_held_to_its_species(*, width_mm: int, doubted: bool) -> None:
    """Half of the width at birth (140), and a quarter above the greatest (763)."""
    assert bool(doubts_of_first_width("Alma", width_mm, 140, 763)) is doubted


def test_a_litter_of_over_twice_the_most_is_doubted() -> None:
    """Where eight is the most (common practice, no source), 16 may be and 17 is a slip."""
    assert doubts_of_litter("Alma", 16, 8) == ()
    assert doubts_of_litter("Alma", 17, 8) == ("17 pups of Alma: her species bears 8 at most",)


def test_forty_kilograms_for_seven_pups_are_doubted() -> None:
    """Seven discs of 14 cm are 1078 cm2: 216 g would be a great deal."""
    pups = [140.0] * 7
    assert doubts_of_meal("P1", 200, pups) == ()
    (said,) = doubts_of_meal("P1", 40_000, pups)
    assert said == "40000 g for 7 in P1: 216 g is a great deal for them"
    assert doubts_of_meal("P1", 40_000, [*pups, None]) == ()
    assert doubts_of_meal("P1", None, pups) == ()


def test_more_water_than_the_reserve_holds_is_doubted() -> None:
    """Where there is no reserve nothing is."""
    assert doubts_of_change("north", 500, 500) == doubts_of_change("north", 500, None) == ()
    assert doubts_of_change("north", 501, 500) == ("501 L for north: the reserve holds 500 L",)


@pytest.mark.parametrize(
    ("width_mm", "odd"), [(240, False), (275, False), (276, True), (205, False), (204, True)]
)
def test_a_width_is_odd_beyond_its_forecast_by_more_than_its_length(
    *, width_mm: int, odd: bool
) -> None:
    """By hand: an interval of 230 to 250 is 20 long, and 5 mm more are what measuring errs."""
    assert bool(doubts_of_forecast("Kira", width_mm, 230, 250)) is odd
