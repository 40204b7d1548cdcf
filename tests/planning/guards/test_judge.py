"""What stands against an act: by the table, and for kin by published values."""

from datetime import date, timedelta

import pytest

from colony.planning.guards.judge import (
    Guarded,
    Kin,
    Proposal,
    Target,
    judge_alone,
    judge_pair,
    refused,
    warned,
)
from colony.planning.guards.table import BRING, GIVE, MOVE, PAIR, SELL
from colony.planning.pairings.eligibility import Candidate

TODAY = date(2026, 3, 9)
GROWN = {"species": "leopoldi", "age_days": 2000, "mature_age_days": 900, "mature_seen": True}


def animal(tag: str = "Alma", sex: str = "F", **facts: object) -> Guarded:
    """A grown animal against which nothing stands, unless the facts say otherwise."""
    own = {
        name: facts.pop(name) for name in ("reserved_for", "held_back", "arrived") if name in facts
    }
    return Guarded(Candidate(tag=tag, sex=sex, **(GROWN | facts)), **own)  # type: ignore[arg-type]


def guards(act: str, subject: Guarded, **proposal: object) -> set[str]:
    """The names of the guards that refuse an act."""
    found = judge_alone(Proposal(act, TODAY, **proposal), subject)  # type: ignore[arg-type]
    return {each.guard for each in refused(found)}


SHARED, NURSERY, INTAKE = Target("N1"), Target("P1", is_nursery=True), Target("Q1", isolates=True)


@pytest.mark.parametrize("act", [PAIR, SELL, GIVE])
def test_a_held_animal_is_neither_paired_nor_sold_nor_given_away(act: str) -> None:
    """A hold says that it is not well."""
    assert guards(act, animal(held="thin")) == {"hold"}


def test_a_held_animal_is_moved_with_a_warning() -> None:
    """It may have to go to the hospital tank."""
    found = judge_alone(Proposal(MOVE, TODAY, SHARED), animal(held="thin"))
    assert [each.guard for each in warned(found)] == ["hold"]
    assert refused(found) == ()


@pytest.mark.parametrize(
    ("days", "barred"), [(15, False), (14, True), (0, True), (-20, True)], ids=str
)
def test_a_dam_near_her_term_is_left_in_peace(*, days: int, barred: bool) -> None:
    """From two weeks before the likely birth, and when she is overdue."""
    dam = animal(due=TODAY + timedelta(days=days))
    assert ("near_term" in guards(MOVE, dam, to=SHARED)) is barred
    assert guards(MOVE, dam, to=NURSERY) == set()


def test_whoever_it_is_reserved_for_gets_it() -> None:
    """The name is compared as a person would: small and capital letters are one."""
    pup = animal(reserved_for="Brook House")
    assert guards(SELL, pup, whom="Pond Ltd") == {"reserved"}
    assert guards(SELL, pup) == {"reserved"}
    assert guards(SELL, pup, whom="brook house") == set()


def test_an_arrival_goes_to_water_of_its_own_first() -> None:
    """Until the days of isolation are over, counted from the day that it came."""
    new = animal(arrived=TODAY - timedelta(days=29))
    assert guards(BRING, new, to=SHARED) == {"arrival"}
    assert guards(BRING, new, to=INTAKE) == set()
    assert guards(BRING, animal(arrived=TODAY - timedelta(days=30)), to=SHARED) == set()


def test_half_sibs_stand_exactly_at_the_limit_and_full_sibs_above_it() -> None:
    """Kinship of half sibs is 1/8, of full sibs and of parent with pup 1/4 (Wright 1922)."""
    dam, sire = animal(), animal("Bruno", "M")
    assert refused(judge_pair(dam, sire, Kin(1 / 8, 1 / 8))) == ()
    assert [each.guard for each in refused(judge_pair(dam, sire, Kin(1 / 4, 1 / 4)))] == ["kin"]


def test_a_doubtful_sire_is_warned_of_at_his_worst() -> None:
    """The expected value is refused, the greatest is warned of."""
    found = judge_pair(animal(), animal("Bruno", "M"), Kin(0.1, 0.25))
    assert [each.guard for each in warned(found)] == ["kin_at_worst"]
    assert refused(found) == ()


def test_unknown_parents_are_not_unrelated() -> None:
    """A kinship of nothing from nothing known is said to be that."""
    found = judge_pair(animal(), animal("Bruno", "M"), Kin(0.0, 0.0, ("Bruno",)))
    assert [each.guard for each in warned(found)] == ["kin_unknown"]
    assert judge_pair(animal(), animal("Bruno", "M"), Kin(0.0, 0.0)) == ()


def test_two_species_and_a_ban_are_refused_and_lines_warned_of() -> None:
    """A cross of species is the breeder's decision, with a reason."""
    dam = animal(line="Harbour")
    other = animal("Otto", "M", species="motoro")
    line = animal("Gino", "M", line="Northlight")
    assert [each.guard for each in refused(judge_pair(dam, other, Kin(0.0, 0.0)))] == ["species"]
    assert [each.guard for each in warned(judge_pair(dam, line, Kin(0.1, 0.1)))] == ["line"]
    assert guards(PAIR, animal(breeding_ban="short tail")) == {"ban"}


def test_a_pup_is_not_paired() -> None:
    """Five weeks old and small: two reasons."""
    pup = animal(
        mature_seen=False, age_days=35, width_mm=150, mature_width_mm=400, mature_age_days=900
    )
    assert guards(PAIR, pup) == {"age", "width"}
