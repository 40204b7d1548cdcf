"""For how long a dam carried, by what was seen before the birth."""

from dataclasses import replace
from datetime import date, timedelta

import pytest

from colony.planning.litters.conception import Check, Evidence, Sign
from colony.planning.litters.gestation import GestationPrior
from colony.planning.litters.gestations import VAGUE_DAYS, gestation_length

PRIOR = GestationPrior(150, 168, 180)
MATED = date(2024, 1, 10)
BORN = MATED + timedelta(days=160)


def after(days: int) -> date:
    """Count days from the mating."""
    return MATED + timedelta(days=days)


def test_a_copulation_seen_gives_the_days_exactly() -> None:
    """Mated on a day, born 160 days later: 160 days, and no doubt about them."""
    seen = Evidence("Alma", signs=(Sign(MATED, "copulation"),))
    gestation = gestation_length(seen, BORN, PRIOR)
    assert gestation is not None
    assert (gestation.dam, gestation.days, gestation.spread_days) == ("Alma", 160, 0)


def test_bite_marks_leave_the_days_before_open() -> None:
    """Marks may be three days old (common practice): the middle is 161.5 days."""
    gestation = gestation_length(Evidence("Alma", signs=(Sign(MATED, "bites"),)), BORN, PRIOR)
    assert gestation is not None
    assert gestation.days == 161.5
    assert gestation.spread_days == pytest.approx(3 / 12**0.5)


def test_a_short_pairing_is_evidence_and_a_long_one_is_not() -> None:
    """Separated after 20 days: 150 days give or take; together until birth: nobody can say."""
    kept = Evidence("Alma", kept=((MATED, after(20)),))
    gestation = gestation_length(kept, BORN, PRIOR)
    assert gestation is not None
    assert gestation.days == 150
    assert gestation.spread_days == pytest.approx(20 / 12**0.5)
    assert (
        gestation_length(replace(kept, kept=((MATED, after(VAGUE_DAYS)),)), BORN, PRIOR) is not None
    )
    assert (
        gestation_length(replace(kept, kept=((MATED, after(VAGUE_DAYS + 1)),)), BORN, PRIOR) is None
    )
    assert gestation_length(replace(kept, kept=((MATED, None),)), BORN, PRIOR) is None


def test_an_early_check_ends_the_days_of_a_long_pairing() -> None:
    """Found pregnant on day 40 and never separated: conceived in the first 40 days."""
    kept = Evidence("Alma", kept=((MATED, None),), checks=(Check(after(40), "gravid"),))
    gestation = gestation_length(kept, BORN, PRIOR)
    assert gestation is not None
    assert gestation.days == 140


def test_what_came_before_an_abortion_or_after_the_birth_does_not_count() -> None:
    """The sign after the abortion began this gestation; one after the birth began the next."""
    seen = Evidence(
        "Alma",
        signs=tuple(Sign(after(n), "copulation") for n in (0, 30, 170)),
        checks=(Check(after(20), "aborted"),),
    )
    gestation = gestation_length(seen, BORN, PRIOR)
    assert gestation is not None
    assert gestation.days == 130


def test_an_impossible_gestation_teaches_nothing() -> None:
    """A birth ten days after the only mating is a slip of the records."""
    assert (
        gestation_length(Evidence("Alma", signs=(Sign(MATED, "copulation"),)), after(10), PRIOR)
        is None
    )
    assert gestation_length(Evidence("Alma"), BORN, PRIOR) is None
