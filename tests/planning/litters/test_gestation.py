"""The gestation model against plain twins and simulated truth."""

from datetime import date, timedelta
from math import sqrt
from statistics import fmean

import numpy as np
import pytest

from colony.planning.litters.conception import Evidence, Sign
from colony.planning.litters.due_window import due_window
from colony.planning.litters.gestation import GestationLength, GestationPrior, Shares, believe

EVEN = GestationPrior(120, 160, 200)
"""A prior of the family's order (Charvet-Almeida, Araujo & Almeida 2005, J. Northw. Atl. Fish.
Sci. 35:165-171, give 90-270 days), made symmetric so that the plain normal model applies."""

SD = 40 / 1.6448536269514722


def dense(past: list[GestationLength], dam: str, shares: Shares) -> tuple[float, float]:
    """Condition the joint normal of all births and the next one at once, without shortcuts."""
    dams = [one.dam for one in past] + [dam]
    same = np.array([[a == b for b in dams] for a in dams], dtype=float)
    joint = shares.colony + shares.dam * same + shares.litter * np.eye(len(dams))
    seen = np.array([(one.days - 160) / SD for one in past])
    joint[range(len(past)), range(len(past))] += [(one.spread_days / SD) ** 2 for one in past]
    gain = joint[-1, :-1] @ np.linalg.inv(joint[:-1, :-1])
    return float(gain @ seen), sqrt(joint[-1, -1] - float(gain @ joint[:-1, -1]))


@pytest.mark.parametrize("dam", ["a", "b", "new"])
def test_shrinkage_equals_conditioning_the_joint_normal(dam: str) -> None:
    """The two-level update equals the whole covariance conditioned at once.

    The weight of the prior spread is set so high that births cannot move it.
    """
    past = [
        GestationLength("a", 150),
        GestationLength("a", 156, 4),
        GestationLength("b", 171),
        GestationLength("c", 148, 9),
    ]
    shares = Shares(weight=1e9)
    belief = believe(EVEN, past, dam, shares)
    assert (belief.mean, belief.sd) == pytest.approx(dense(past, dam, shares), abs=1e-6)


def test_the_window_is_the_normal_conditioned_on_no_birth_yet() -> None:
    """Against a plain grid: the days left, weighed by the density, give the same dates."""
    mated = date(2024, 1, 1)
    today = mated + timedelta(days=165)
    window = due_window(EVEN, Evidence("a", signs=(Sign(mated, "copulation"),)), today=today)
    assert window is not None
    days = np.arange(165, 400)
    weight = np.exp(-0.5 * ((days - 160) / SD) ** 2)
    share = np.cumsum(weight) / weight.sum()
    dates = [
        mated + timedelta(days=int(days[np.searchsorted(share, q)])) for q in (0.05, 0.5, 0.95)
    ]
    for got, plain in zip((window.earliest, window.likely, window.latest), dates, strict=True):
        assert abs((got - plain).days) <= 1


def test_nine_tenths_of_simulated_births_fall_in_their_window() -> None:
    """Colonies and dams of known truth: the window, made the day before, holds 85 to 95 %.

    The truth is drawn from the model's own shares; each dam has had three litters.
    """
    rng = np.random.default_rng(5)
    mated = date(2024, 1, 1)
    hits, off = [], []
    for _ in range(150):
        colony = 160 + SD * rng.normal(0, sqrt(0.80))
        dams = colony + SD * rng.normal(0, sqrt(0.07), 4)
        days = dams[:, None] + SD * rng.normal(0, sqrt(0.13), (4, 4))
        past = [GestationLength(f"d{d}", float(x)) for d, row in enumerate(days) for x in row[:3]]
        seen = Evidence("d0", signs=(Sign(mated, "copulation"),))
        window = due_window(EVEN, seen, past, today=mated)
        assert window is not None
        birth = mated + timedelta(days=round(float(days[0, 3])))
        hits.append(window.earliest <= birth <= window.latest)
        off.append((window.likely - birth).days)
    assert 0.85 <= fmean(hits) <= 0.95
    assert abs(fmean(off)) < 3


def test_a_colony_far_from_its_species_is_believed_by_its_births() -> None:
    """Twelve births about 100 days outweigh a species said to take 160."""
    rng = np.random.default_rng(1)
    past = [GestationLength(f"d{n % 4}", float(rng.normal(100, 4))) for n in range(12)]
    belief = believe(EVEN, past, "d0")
    assert 160 + SD * belief.mean == pytest.approx(100, abs=5)
    assert SD * belief.sd < 12


def test_a_conception_known_to_the_month_counts_for_less() -> None:
    """A birth after a pairing of 60 days says less than one after a copulation seen."""
    mated, born = date(2024, 1, 1), date(2024, 5, 20)
    sharp = believe(EVEN, [GestationLength.between("a", mated, mated, born)], "a")
    vague_days = GestationLength.between(
        "a", mated - timedelta(days=30), mated + timedelta(days=30), born
    )
    vague = believe(EVEN, [vague_days], "a")
    assert vague_days.days == (born - mated).days
    assert vague_days.spread_days == pytest.approx(60 / sqrt(12))
    assert sharp.mean < vague.mean < 0
    assert sharp.sd < vague.sd
