"""The growth status of the morning, held against the law it rests on."""

from datetime import date, timedelta

import pytest

from colony.planning.pups.gates import PupFacts
from colony.planning.pups.growth import GrowthPrior, Width, likely_width_mm
from colony.planning.pups.growth_law import gain_mm
from colony.planning.pups.growth_status import growth_status

TODAY = date(2024, 6, 1)
FEMALE = GrowthPrior(asymptotic_mm=763.06, rate_per_year=0.12)
"""P. leopoldi females, Charvet et al. 2018, J. Fish Biol. 92:1985-1999."""


def grown(start_mm: float, weeks: int, times: float = 1.0) -> float:
    """Width after so many weeks at some times the published rate."""
    rate = times * FEMALE.rate_per_year
    return start_mm + gain_mm(start_mm, FEMALE.asymptotic_mm, rate, 7 * weeks)


def pup(tag: str, *widths: float, litter: str = "L1", every: int = 8) -> PupFacts:
    """Make a pup measured every so many weeks, the last time today."""
    days = [TODAY - timedelta(weeks=every * n) for n in reversed(range(len(widths)))]
    seen = tuple(Width(day, width) for day, width in zip(days, widths, strict=True))
    return PupFacts(tag, "leopoldi", "F", days[0], seen, prior=FEMALE, litter=litter)


def fast(count: int) -> list[PupFacts]:
    """Make pups that grow at three times the published rate."""
    return [pup(f"p{n}", 150 + n, grown(150 + n, 8, 3.0)) for n in range(count)]


def test_the_pace_of_the_house_is_that_of_its_pups() -> None:
    """Twenty pups at three times the published rate outweigh two as published: 10 % off at most."""
    curve = growth_status(fast(20), TODAY).curves["p0"]
    now = grown(150, 8, 3.0)
    truth = gain_mm(now, FEMALE.asymptotic_mm, 3 * FEMALE.rate_per_year, 14)
    gained = likely_width_mm(curve, TODAY + timedelta(days=14)) - now
    assert gained == pytest.approx(truth, rel=0.10)
    assert gained < truth


def test_one_pup_alone_grows_nearly_as_published() -> None:
    """A single fast pup does not say how the colony grows."""
    curve = growth_status(fast(1), TODAY).curves["p0"]
    gained = likely_width_mm(curve, TODAY + timedelta(days=28)) - grown(150, 8, 3.0)
    assert gained < 2 * (grown(150, 4) - 150)


def test_who_stands_still_or_lags_is_called_out() -> None:
    """Beside mates that grow, one gained nothing and one is two thirds as wide; the rest are fine."""
    mates = fast(6)
    still = pup("still", 170, 170)
    narrow = pup("narrow", 100, grown(100, 8, 3.0))
    off = {pup.tag: pup.kind for pup in growth_status([*mates, still, narrow], TODAY).off}
    assert off == {"still": "stands still", "narrow": "behind its litter"}
