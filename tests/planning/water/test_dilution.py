"""What changes of water leave behind, now and in the long run."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from colony.planning.water.dilution import (
    Changes,
    after_change,
    changes_to_reach,
    left_after_changes,
    left_after_drip,
    steady_batches,
    steady_drip,
)

fractions = st.floats(0.05, 0.9)


def test_batches_and_drip_leave_what_the_handbook_says() -> None:
    """Four changes of 25 % leave 0.3164, two of 50 % 0.25; one volume dripped 0.3679 (exp -1)."""
    assert left_after_changes(0.25, 4) == pytest.approx(0.3164, abs=5e-5)
    assert left_after_changes(0.5, 2) == 0.25
    assert left_after_drip(100, 1000, 10) == pytest.approx(0.3679, abs=5e-5)


@settings(deadline=None)
@given(st.floats(0.001, 2), st.integers(1, 400))
def test_many_small_changes_come_near_a_drip(volumes: float, parts: int) -> None:
    """A drip is the limit of ever smaller changes, and leaves less than no number of them."""
    batches = left_after_changes(min(volumes / parts, 1), parts)
    assert batches <= left_after_drip(volumes, 1, 1) + 1e-12


def test_a_drip_is_the_limit_of_small_changes() -> None:
    """Ten thousand changes of 0.01 % leave what a drip of one volume leaves."""
    assert left_after_changes(1e-4, 10_000) == pytest.approx(left_after_drip(1, 1, 1), abs=1e-4)


@settings(deadline=None)
@given(st.floats(0.1, 20), fractions, st.floats(0, 10))
def test_batches_settle_where_the_formula_says(
    added: float, fraction: float, source: float
) -> None:
    """Adding and changing four hundred times from nothing ends at the steady swing."""
    now = 0.0
    before = 0.0
    for _ in range(400):
        before = now + added
        now = after_change(before, fraction, source)
    swing = steady_batches(added, fraction, source)
    assert now == pytest.approx(swing.after, rel=1e-6)
    assert before == pytest.approx(swing.before, rel=1e-6)


def test_a_drip_settles_where_the_formula_says() -> None:
    """500 mg a day into 50 L a day of water at 5 mg/L settles at 15 mg/L, stepped in minutes."""
    now, volume_l, steps = 0.0, 400, 24 * 60
    for _ in range(60 * steps):
        now += (500 + 50 * (5 - now)) / volume_l / steps
    assert now == pytest.approx(steady_drip(500, 50, 5), rel=1e-3)


@settings(deadline=None)
@given(st.floats(1.01, 100), st.floats(0.5, 1), fractions)
def test_the_fewest_changes_reach_the_target(now: float, target: float, most: float) -> None:
    """They end at the target, none is above the limit, and one fewer at the limit falls short."""
    found = changes_to_reach(now, target, most)
    assert found is not None
    assert found.fraction <= most + 1e-12
    assert now * left_after_changes(found.fraction, found.times) == pytest.approx(target, rel=1e-6)
    if found.times > 1:
        assert now * left_after_changes(most, found.times - 1) > target * (1 - 1e-6)


def test_no_change_helps_below_what_the_new_water_holds() -> None:
    """New water with 30 mg/L brings nothing to 20; water that is fine needs no change."""
    assert changes_to_reach(50, 20, 0.5, source=30) is None
    assert changes_to_reach(10, 20, 0.5) == Changes(0, 0.0)
    assert changes_to_reach(50, 10, 1.0) == Changes(1, 0.8)
