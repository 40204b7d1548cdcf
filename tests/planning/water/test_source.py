"""What new water brings: a change that cannot help is never asked for, and what would is said."""

from dataclasses import replace
from datetime import date

import pytest

from colony.notation.care import UNIONISED
from colony.planning.water.dilution import left_after_changes
from colony.planning.water.limits import Limit, OutOfLimit, with_unionised
from colony.planning.water.needs import (
    SystemWater,
    WeekRules,
    beyond_changes,
    demand_of,
    expected_now,
)
from colony.planning.water.source import SourceWater, why_no_change_helps, worst_after_change

TODAY = date(2026, 3, 9)
NITRATE = OutOfLimit("nitrate_mg_l", 80, Limit("nitrate_mg_l", None, 40, "own"))
S1 = SystemWater("S1", 1000, percent=25, every_days=7, bad_tests=(NITRATE,))


def test_water_that_holds_as_much_as_the_limit_is_never_asked_for() -> None:
    """At 40 the new water cannot bring 80 to 40; at 30 it can, and that takes more of it."""
    hard = replace(S1, source=SourceWater({"nitrate_mg_l": 40}))
    assert demand_of([hard], TODAY, WeekRules()).urgent == ()
    ((_, why),) = beyond_changes(hard)
    assert why == "the new water holds 40 of it: water with less than 40 would help"
    (pure,) = demand_of([S1], TODAY, WeekRules()).urgent
    fair = replace(S1, source=SourceWater({"nitrate_mg_l": 30}))
    (more,) = demand_of([fair], TODAY, WeekRules()).urgent
    assert beyond_changes(fair) == []
    assert more.litres > pure.litres
    # By hand: 80 to 40 with water of 30 leaves a fifth of the difference, three changes of 41.5 %.
    assert more.litres == pytest.approx(3 * 1000 * (1 - 0.2 ** (1 / 3)), abs=3)


def test_new_water_of_a_high_ph_can_make_ammonia_worse() -> None:
    """PH 7.0 to 8.0 multiplies the poisonous share by ten: the table of Emerson et al. 1975.

    0.00564 and 0.05366 of the total at 25 C (J. Fish. Res. Board Can. 32:2379-2383).
    """
    values = with_unionised({"ammonia_nh3_mg_l": 5.0, "ph": 7.0, "temperature_c": 25.0})
    assert values[UNIONISED] == pytest.approx(5 * 0.00564, rel=0.01)
    test = OutOfLimit(UNIONISED, values[UNIONISED], Limit(UNIONISED, None, 0.02, "own"))
    soft, alkaline = SourceWater(ph=6.5), SourceWater(ph=8.0)
    assert worst_after_change(test, values, alkaline, 0.5) == pytest.approx(2.5 * 0.05366, rel=0.01)
    assert why_no_change_helps(test, values, soft, 0.5) is None
    why = why_no_change_helps(test, values, alkaline, 0.5)
    assert why is not None
    assert why.startswith("the new water has pH 8")


def test_ammonia_as_nitrogen_is_held_to_a_limit_as_nh3() -> None:
    """The same water, tested either way: 17.031 / 14.007 (molar masses) between the numbers."""
    as_n = with_unionised({"ammonia_mg_l": 1.0, "ph": 8.0, "temperature_c": 25.0})
    as_nh3 = with_unionised({"ammonia_nh3_mg_l": 17.031 / 14.007, "ph": 8.0, "temperature_c": 25.0})
    assert as_n[UNIONISED] == pytest.approx(as_nh3[UNIONISED])
    assert as_n[UNIONISED] == pytest.approx(0.05366 * 1.2159, rel=0.001)


def test_changes_since_a_test_count() -> None:
    """Two changes of half: a quarter is left (1 - p)^n; the source is never undercut."""
    assert expected_now(80, 0, 1000, [500, 500], 0) == pytest.approx(
        80 * left_after_changes(0.5, 2)
    )
    assert expected_now(80, 20, 1000, [500], 0) == 50
    assert expected_now(80, 0, 1000, [], 1000) == pytest.approx(80 * 0.3679, rel=0.001)
