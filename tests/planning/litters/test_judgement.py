"""A recorded birth held against the days she may have conceived."""

from datetime import date, timedelta

import pytest

from colony.planning.litters.gestation import GestationPrior
from colony.planning.litters.judgement import judge_gestation

LEOPOLDI = GestationPrior(90, 168, 180)
"""What the program starts P. leopoldi with: common practice, no source."""


MATED = date(2024, 3, 1)


def after(days: int) -> date:
    """Count days from the mating."""
    return MATED + timedelta(days=days)


@pytest.mark.parametrize(
    ("days", "verdict"),
    [(-1, "impossible"), (30, "impossible"), (80, "implausible"), (150, "plausible"),
     (200, "implausible"), (370, "impossible")],
)  # fmt: skip
def test_a_birth_is_judged_by_the_gestation_it_implies(days: int, verdict: str) -> None:
    """Outside the species' range warns; before the mating or far outside is refused."""
    assert judge_gestation(LEOPOLDI, MATED, MATED, after(days)).verdict == verdict


def test_a_wide_span_of_conception_gives_the_benefit_of_the_doubt() -> None:
    """A birth is plausible when any day of the pairing makes it so."""
    judged = judge_gestation(LEOPOLDI, MATED, after(100), after(200))
    assert (judged.verdict, judged.shortest_days, judged.longest_days) == ("plausible", 100, 200)
