"""Whether a recorded birth fits the days on which its dam may have conceived."""

from dataclasses import dataclass
from datetime import date
from typing import Literal

from colony.planning.litters.gestation import GestationPrior

Verdict = Literal["plausible", "implausible", "impossible"]

SHORTEST_SHARE = 0.5
"""A gestation under this share of the species' low is refused; common practice, no source."""

LONGEST_SHARE = 2.0
"""A gestation over this multiple of the species' high is refused; common practice, no source."""


@dataclass(frozen=True)
class GestationJudgement:
    """The verdict on one birth: shortest and longest gestation it allows, in days, and why."""

    verdict: Verdict
    shortest_days: int
    longest_days: int
    reason: str


def judge_gestation(
    prior: GestationPrior, conceived_from: date, conceived_to: date | None, born: date
) -> GestationJudgement:
    """Judge a birth by the gestation it implies.

    Parameters
    ----------
    prior
        Days of gestation of the species.
    conceived_from, conceived_to
        First and last day on which she may have conceived; None means up to the birth.
    born
        The day of birth.

    Returns
    -------
    GestationJudgement
        "impossible" before the male was there or far outside the species' range,
        "implausible" outside the range, "plausible" otherwise.
    """
    shortest = max((born - min(conceived_to or born, born)).days, 0)
    longest = (born - conceived_from).days
    return GestationJudgement(
        verdict_of(prior, shortest, longest), shortest, longest, _reason(prior, shortest, longest)
    )


def verdict_of(prior: GestationPrior, shortest: int, longest: int) -> Verdict:
    """Judge a gestation by the fewest and the most days that it may have taken."""
    if longest < 0 or longest < SHORTEST_SHARE * prior.low_days:
        return "impossible"
    if shortest > LONGEST_SHARE * prior.high_days:
        return "impossible"
    if longest < prior.low_days or shortest > prior.high_days:
        return "implausible"
    return "plausible"


def _reason(prior: GestationPrior, shortest: int, longest: int) -> str:
    usual = f"{prior.low_days:.0f} to {prior.high_days:.0f} days are usual"
    if longest < 0:
        return f"born {-longest} days before she could first have conceived"
    if longest < prior.low_days:
        return f"at most {longest} days of gestation; {usual}"
    if shortest > prior.high_days:
        return f"at least {shortest} days of gestation; {usual}"
    return f"{shortest} to {longest} days of gestation; {usual}"
