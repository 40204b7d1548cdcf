"""Survival against a published example, a reference interval and its own limits."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.stats import binomtest

from colony.planning.health.survival import Lived, survival

FREIREICH_DIED = [6, 6, 6, 7, 10, 13, 16, 22, 23]
FREIREICH_LEFT = [6, 9, 10, 11, 17, 19, 20, 25, 32, 32, 34, 35]
"""Weeks in remission under 6-MP and weeks when follow-up ended: Freireich et al. 1963, Blood
21:699-716, the data of most textbooks of survival analysis."""


def lives(died: list[int], left: list[int]) -> list[Lived]:
    """Make lives of ages at death, and of ages at which following ended."""
    return [Lived(age, died=True) for age in died] + [Lived(age, died=False) for age in left]


def test_the_estimate_is_the_textbook_one() -> None:
    """The 6-MP arm of Freireich et al. 1963: the Kaplan-Meier column of the textbooks."""
    ages = [5, 6, 7, 10, 13, 16, 22, 23]
    found = survival(lives(FREIREICH_DIED, FREIREICH_LEFT), ages)
    shares = [1, 0.857, 0.807, 0.753, 0.690, 0.627, 0.538, 0.448]
    assert [one.share for one in found] == pytest.approx(shares, abs=5e-4)
    assert [one.followed for one in found] == [21, 17, 16, 13, 11, 10, 6, 5]


def test_with_enough_deaths_the_interval_is_near_greenwoods() -> None:
    """Fay et al. 2013: the interval comes near the one from Greenwood's standard error.

    At 13 weeks Greenwood's standard error is 0.1068 (textbook), so 0.690 +- 0.209.
    """
    (at_13,) = survival(lives(FREIREICH_DIED, FREIREICH_LEFT), [13])
    assert at_13.low == pytest.approx(0.690 - 1.96 * 0.1068, abs=0.06)
    assert at_13.high == pytest.approx(0.690 + 1.96 * 0.1068, abs=0.06)


@given(st.integers(1, 40), st.data())
@settings(max_examples=40, deadline=None)
def test_without_censoring_the_interval_is_clopper_and_pearsons(
    n: int, data: st.DataObject
) -> None:
    """All followed to day 100: survival at 50 has the exact binomial interval (1934)."""
    dead = data.draw(st.lists(st.integers(0, 50), max_size=n))
    (at_50,) = survival(lives(dead, [100] * (n - len(dead))), [50])
    exact = binomtest(n - len(dead), n).proportion_ci(method="exact")
    assert at_50.share == pytest.approx(1 - len(dead) / n)
    assert (at_50.low, at_50.high) == pytest.approx((exact.low, exact.high), abs=1e-6)


def test_three_pups_that_all_live_prove_little() -> None:
    """No death among three: the lower bound is 0.292, as in a table of binomial limits."""
    (at_30,) = survival(lives([], [60, 60, 60]), [30])
    assert (at_30.share, at_30.high) == (1.0, 1.0)
    assert at_30.low == pytest.approx(0.025 ** (1 / 3), abs=1e-9)
    assert at_30.low == pytest.approx(0.292, abs=5e-4)


def test_nothing_is_told_past_the_last_that_was_followed() -> None:
    """Sold at 40 days: survival to 90 is unknown, with all between nothing and its upper bound."""
    (at_90,) = survival(lives([5], [40, 40]), [90])
    assert at_90.share is None
    assert at_90.low == 0
    assert at_90.followed == 0
    (gone,) = survival(lives([5, 9], []), [90])
    assert (gone.share, gone.low) == (0, 0)
    assert gone.high == pytest.approx(1 - 0.025 ** (1 / 2))
    with pytest.raises(ValueError, match="nobody"):
        survival([])


any_lives = st.lists(st.builds(Lived, st.integers(0, 200), st.booleans()), min_size=1, max_size=25)


@given(any_lives)
@settings(max_examples=60, deadline=None)
def test_the_estimate_lies_in_its_interval_and_falls_with_age(followed: list[Lived]) -> None:
    """0 <= low <= share <= high <= 1 at every age, and no share or bound rises with age."""
    found = survival(followed, range(0, 210, 15))
    for one in found:
        assert 0 <= one.low <= one.high <= 1
        if one.share is not None:
            assert one.low - 1e-9 <= one.share <= one.high + 1e-9
    shares = [one.share for one in found if one.share is not None]
    assert shares == sorted(shares, reverse=True)
    for bound in ("low", "high"):
        bounds = [round(getattr(one, bound), 9) for one in found]
        assert bounds == sorted(bounds, reverse=True)


def plainly(followed: list[Lived], age: int) -> float:
    """The product-limit estimate as it is defined, one death-day after another."""
    share = 1.0
    for day in sorted({one.days for one in followed if one.died and one.days <= age}):
        at_risk = sum(one.days >= day for one in followed)
        share *= 1 - sum(one.died and one.days == day for one in followed) / at_risk
    return share


@given(any_lives, st.integers(0, 200))
@settings(max_examples=60, deadline=None)
def test_the_estimate_is_the_product_of_its_definition(followed: list[Lived], age: int) -> None:
    """Kaplan & Meier 1958: the product over the days of death of the share that outlived them."""
    (found,) = survival(followed, [age])
    if found.share is not None:
        assert found.share == pytest.approx(plainly(followed, age))


def test_a_death_between_two_days_widens_the_interval_both_ways() -> None:
    """The lower bound is that of the earliest deaths, the upper one that of the latest."""
    others = [Lived(60, died=False)] * 8
    unseen = survival([Lived(40, died=True, seen_days=20), *others], [30])[0]
    early = survival([Lived(21, died=True), *others], [30])[0]
    late = survival([Lived(40, died=True), *others], [30])[0]
    assert (unseen.low, unseen.high) == (early.low, late.high)
    assert early.share is not None
    assert late.share is not None
    assert unseen.share == pytest.approx((early.share + late.share) / 2)


def test_one_that_was_seen_the_day_before_died_on_a_known_day() -> None:
    """Alive yesterday, dead today: as any death."""
    others = [Lived(60, died=False)] * 8
    seen = survival([Lived(40, died=True, seen_days=39), *others], [30, 40])
    assert seen == survival([Lived(40, died=True), *others], [30, 40])
