"""The nitrate that food and changes lead to."""

import pytest

from colony.planning.water.dilution import (
    after_change,
)
from colony.planning.water.nitrate import (
    NitrateDay,
    nitrate_after,
    nitrate_from_food_mg,
    nitrate_in_the_long_run,
    nitrate_under_drip,
)


def test_food_becomes_nitrate_by_the_published_shares() -> None:
    """100 g of feed with 35 % protein make 3.22 g of ammonia nitrogen (F x PC x 0.092)."""
    grams_of_nitrogen = 100 * 0.35 * 0.092
    assert grams_of_nitrogen == pytest.approx(3.22)
    assert nitrate_from_food_mg(100, 0.35) == pytest.approx(3.22 * 4.427 * 1000, rel=1e-3)


def test_expected_nitrate_follows_food_and_changes() -> None:
    """A fasted tank halves at a 50 % change; feeding without changes only adds."""
    assert nitrate_after(40, 1000, [NitrateDay(0, 0.2, 500)]) == pytest.approx(20)
    fed = nitrate_after(0, 1000, [NitrateDay(100, 0.35, 0)] * 3)
    assert fed == pytest.approx(3 * nitrate_from_food_mg(100, 0.35) / 1000)


def test_the_long_run_agrees_with_following_it_day_by_day() -> None:
    """Weekly changes of 300 L of 1000 L, followed for years, peak where the formula says."""
    made = nitrate_from_food_mg(50, 0.2)
    now, peak = 0.0, 0.0
    for day in range(7 * 300):
        now += made / 1000
        if day % 7 == 6:
            peak, now = now, after_change(now, 0.3)
    assert peak == pytest.approx(nitrate_in_the_long_run(made, 1000, 300, 7), rel=1e-9)
    assert nitrate_under_drip(1000, 50, 2) == 22
