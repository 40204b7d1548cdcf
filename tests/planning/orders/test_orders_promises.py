"""How many will be ready: beside enumeration, and held against colonies that are drawn."""

from datetime import date
from itertools import product

import numpy as np
import pytest
from sale_truth import held
from scipy.stats import binom, norm

from colony.planning.orders.promises import (
    COMMON,
    GROWTH_Z,
    WEIGHTS,
    Coming,
    GrowingPup,
    Interval,
    count_ready,
    distribution,
)

TODAY = date(2026, 3, 9)
PUPS = [
    GrowingPup("motoro", "F", Interval(0, 0, 0), 0.95),
    GrowingPup("motoro", "F", Interval(10, 20, 40)),
    GrowingPup("motoro", "F", Interval(30, 50, 60), 0.9),
]
LITTER = Coming(
    "motoro",
    Interval(10, 10, 10),
    {2: 0.5, 5: 0.5},
    {"F": Interval(20, 20, 20), "M": Interval(20, 20, 20)},
    lives=0.8,
    chance=0.75,
)


def chance_by(pup: GrowingPup, day: float) -> float:
    """Of one pup, by the normal distribution of scipy."""
    gap = day - pup.ready.likely
    side = pup.ready.high - pup.ready.likely if gap > 0 else pup.ready.likely - pup.ready.low
    return pup.lives * (norm.cdf(gap / side * GROWTH_Z) if side else float(gap >= 0))


@pytest.mark.parametrize("day", [0, 15, 45, 200])
def test_pups_that_share_no_luck_are_counted_as_by_enumeration(day: float) -> None:
    """Every way in which some are ready and some are not, its chance multiplied out."""
    each = [chance_by(pup, day) for pup in PUPS]
    expected = np.zeros(len(PUPS) + 1)
    for ways in product((0, 1), repeat=len(PUPS)):
        odds = [p if way else 1 - p for way, p in zip(ways, each, strict=True)]
        expected[sum(ways)] += np.prod(odds)
    assert distribution(PUPS, [], "F", day, 0.0) == pytest.approx(expected, abs=1e-9)


def test_a_litter_to_come_is_a_mixture_of_binomials() -> None:
    """By its size, half of it females, each of which lives and is ready from day 30 on."""
    found = distribution([], [LITTER], "F", 30, 0.0)
    each = 0.5 * 0.8
    expected = [
        0.75 * sum(0.5 * binom.pmf(n, size, each) for size in (2, 5)) + (0.25 if n == 0 else 0)
        for n in range(6)
    ]
    assert found == pytest.approx(expected, abs=1e-9)
    assert distribution([], [LITTER], "F", 29, 0.0)[0] == pytest.approx(1.0)


def test_shared_luck_leaves_each_chance_and_widens_the_sum() -> None:
    """The mean is that of the single chances; the variance is greater than theirs together."""
    pups = [GrowingPup("motoro", "F", Interval(20, 40, 60))] * 20
    alone, together = (distribution(pups, [], "F", 45, shared) for shared in (0.0, 0.25))
    numbers = np.arange(21)
    assert alone @ numbers == pytest.approx(20 * chance_by(pups[0], 45))
    assert together @ numbers == pytest.approx(alone @ numbers, rel=2e-3)
    variances = [((numbers - f @ numbers) ** 2) @ f for f in (alone, together)]
    assert variances[1] > 2 * variances[0]


def test_the_points_of_common_luck_are_a_standard_normal() -> None:
    """Gauss-Hermite points integrate its moments without error."""
    weights = WEIGHTS / WEIGHTS.sum()
    for power, moment in ((1, 0), (2, 1), (4, 3), (6, 15)):
        assert weights @ COMMON**power == pytest.approx(moment, abs=1e-9)


def test_counts_grow_from_week_to_week_by_species_and_sex() -> None:
    """To the end of each week; who is not sexed stands apart, and the sure number is the lesser."""
    pups = [
        *PUPS,
        GrowingPup("motoro", "U", Interval(0, 0, 0)),
        GrowingPup("henlei", "M", Interval(5, 9, 20)),
    ]
    counts = count_ready(pups, [LITTER], weeks=range(1, 11), today=TODAY)
    kinds = list(dict.fromkeys((each.species, each.sex) for each in counts))
    assert kinds == [("henlei", "M"), ("motoro", "F"), ("motoro", "M"), ("motoro", "U")]
    for kind in kinds:
        mine = [each for each in counts if (each.species, each.sex) == kind]
        assert [each.week for each in mine] == list(range(1, 11))
        assert [each.sure for each in mine] == sorted(each.sure for each in mine)
        assert all(each.sure <= each.likely for each in mine)
    assert counts[0].until == date(2026, 3, 15)


def test_the_sure_number_holds_as_often_as_it_says() -> None:
    """90 % in colonies that are drawn as is believed; in whole animals it is never less sure."""
    assert 0.88 <= held(1, pups=30, litters=2, truth=0.25, colonies=60, weeks=12) <= 0.97


def test_luck_that_all_pups_share_more_than_believed_makes_it_less_sure() -> None:
    """With twice the shared part the number still holds in four of five."""
    assert 0.8 <= held(2, pups=60, litters=2, truth=0.5, colonies=40, weeks=12) <= 0.95
