"""The gestation model against a plain twin and simulated truth."""

from datetime import date, timedelta
from math import sqrt

import numpy as np
import pytest
from gestation_truth import LEOPOLDI, held_and_width
from scipy.stats import norm

from colony.planning.litters.conception import Evidence, Sign
from colony.planning.litters.due_window import due_window
from colony.planning.litters.gestation import GestationLength, GestationPrior, Shares, believe

EVEN = GestationPrior(120, 160, 200)
"""A prior of the family's order (Charvet-Almeida, Araujo & Almeida 2005, J. Northw. Atl. Fish.
Sci. 35:165-171, give 90-270 days), made symmetric so that the plain normal model applies."""

Z = 1.6448536269514722
SD = 40 / Z


def dense(past: list[GestationLength], dam: str, shares: Shares) -> tuple[float, float]:
    """Condition the joint normal of all births and the next one at once, without shortcuts."""
    scatter = shares.scatter(EVEN)
    dams = [one.dam for one in past] + [dam]
    same = np.array([[a == b for b in dams] for a in dams], dtype=float)
    joint = SD**2 - scatter.both + scatter.dam * same + scatter.litter * np.eye(len(dams))
    seen = np.array([one.days - 160 for one in past])
    joint[range(len(past)), range(len(past))] += [one.spread_days**2 for one in past]
    gain = joint[-1, :-1] @ np.linalg.inv(joint[:-1, :-1])
    return 160 + float(gain @ seen), sqrt(joint[-1, -1] - float(gain @ joint[:-1, -1]))


@pytest.mark.parametrize("dam", ["a", "b", "new"])
def test_shrinkage_equals_conditioning_the_joint_normal(dam: str) -> None:
    """The levels one by one equal the whole covariance conditioned at once.

    The weight of the prior scatter is set so high that births cannot move it.
    """
    past = [
        GestationLength("a", 150),
        GestationLength("a", 156, 4),
        GestationLength("b", 171),
        GestationLength("c", 148, 9),
    ]
    shares = Shares(weight=1e9)
    belief = believe(EVEN, past, dam, shares)
    mean, sd = dense(past, dam, shares)
    assert belief.likely_days == pytest.approx(mean, abs=0.05)
    assert spread(belief) == pytest.approx(sd, abs=0.05)


def spread(belief: GestationPrior) -> float:
    """One standard deviation of a belief, from its 5 % and 95 % points."""
    return (belief.high_days - belief.low_days) / (2 * Z)


def test_without_a_birth_the_dam_is_as_her_species() -> None:
    """Nothing on record: the species' own days, to the day."""
    assert believe(LEOPOLDI, [], "a") == LEOPOLDI


def test_a_lopsided_species_is_weighed_side_by_side() -> None:
    """Against a fine grid over the colony's mean, each side with its own spread."""
    past = [GestationLength("a", 160), GestationLength("b", 166, 3)]
    shares = Shares(weight=1e9)
    scatter = shares.scatter(LEOPOLDI)
    colony = np.linspace(20, 260, 48_001)
    reach = np.where(colony < 168, 78, 12) / Z
    doubt = np.sqrt(reach**2 - scatter.both)
    weight = norm.pdf((colony - 168) / doubt) / doubt
    for one in past:
        weight *= norm.pdf(one.days, colony, sqrt(scatter.both + one.spread_days**2))
    weight /= weight.sum()
    belief = believe(LEOPOLDI, past, "new", shares)
    for days, share in (
        (belief.low_days, 0.05),
        (belief.likely_days, 0.5),
        (belief.high_days, 0.95),
    ):
        assert weight @ norm.cdf(days, colony, sqrt(scatter.both)) == pytest.approx(
            share, abs=0.003
        )


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


@pytest.mark.parametrize("births", [1, 2, 5, 10, 20])
def test_nine_tenths_of_simulated_births_fall_in_their_window(births: int) -> None:
    """Colonies of known truth: the window, made the day before, holds 85 to 95 %.

    Where a colony's births scatter by 3.5, 5 and 6.5 days taken together, and by 5 alone. With
    five births on record it is 20 days wide at most. `tests/benchmarks/due_windows.py` prints
    the table.
    """
    held = [held_and_width(births, within, colonies=700) for within in (3.5, 5.0, 6.5)]
    assert 0.85 <= held[1].share <= 0.95
    assert 0.85 <= np.mean([one.share for one in held]) <= 0.95
    if births >= 5:
        assert np.mean([one.width_days for one in held]) <= 20


def test_a_colony_far_from_its_species_is_believed_by_its_births() -> None:
    """Twelve births about 100 days outweigh a species said to take 160."""
    rng = np.random.default_rng(1)
    past = [GestationLength(f"d{n % 4}", float(rng.normal(100, 4))) for n in range(12)]
    belief = believe(EVEN, past, "d0")
    assert belief.likely_days == pytest.approx(100, abs=5)
    assert spread(belief) < 12


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
    assert sharp.likely_days < vague.likely_days < 160
    assert spread(sharp) < spread(vague)
