"""The limits that water is judged by."""

import pytest

from colony.planning.water.limits import (
    USUAL_LIMITS,
    Limit,
    out_of_limits,
    strictest,
    with_unionised,
)


def test_limits_of_species_that_share_water_are_the_narrowest_of_each() -> None:
    """The higher low and the lower high, with the sources of both."""
    both = strictest(
        [
            Limit("ph", 5.0, 7.0, "one"),
            Limit("ph", 6.0, 8.0, "two"),
            Limit("nitrate_mg_l", None, 30, "one"),
        ]
    )
    assert both["ph"] == Limit("ph", 6.0, 7.0, "one; two")
    assert both["nitrate_mg_l"].high == 30


def test_ammonia_is_judged_by_its_poisonous_part() -> None:
    """0.5 mg/L of total ammonia is within 0.02 mg/L un-ionised at pH 7 and 25 C, not at pH 8.

    Emerson et al. 1975: 0.00564 and 0.05366 of it are un-ionised; tested as nitrogen it is
    17.031 / 14.007 as much NH3, and so is the limit.
    """
    limits = strictest(USUAL_LIMITS)
    at_7 = with_unionised({"ammonia_mg_l": 0.5, "ph": 7.0, "temperature_c": 25})
    at_8 = with_unionised({"ammonia_mg_l": 0.5, "ph": 8.0, "temperature_c": 25})
    assert out_of_limits(at_7, limits) == []
    bad = {limit.parameter: limit for limit in out_of_limits(at_8, limits)}
    assert bad.keys() == {"unionised_ammonia_mg_l", "ph"}
    assert bad["unionised_ammonia_mg_l"].value == pytest.approx(
        0.5 * 0.05366 * 17.031 / 14.007, abs=5e-6
    )
    assert bad["unionised_ammonia_mg_l"].diluted
    assert with_unionised({"ammonia_mg_l": 0.5}) == {"ammonia_mg_l": 0.5}


def test_every_usual_limit_says_where_it_comes_from() -> None:
    """A limit is common practice without a source, or names one."""
    assert all("no source" in one.source or "EPA" in one.source for one in USUAL_LIMITS)
