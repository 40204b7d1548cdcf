"""Two litters that want one nursery."""

from datetime import date, timedelta

from hypothesis import given
from hypothesis import strategies as st

from colony.planning.litters.conception import Evidence, Sign
from colony.planning.litters.due_window import due_window
from colony.planning.litters.gestation import GestationPrior
from colony.planning.litters.nurseries import (
    Nursery,
    NurseryClaim,
    NurseryNeed,
    allot_nurseries,
    not_free_in_time,
    nursery_conflicts,
)

MATED = date(2024, 3, 1)


def claim(dam: str, nursery: str, days: int) -> NurseryClaim:
    """Let a dam mated some days after the first want a nursery."""
    day = MATED + timedelta(days=days)
    seen = Evidence(dam, signs=(Sign(day, "copulation"),))
    window = due_window(GestationPrior(150, 168, 180), seen, today=day)
    assert window is not None
    return NurseryClaim(dam, nursery, window)


def test_two_litters_in_one_nursery_are_a_warning() -> None:
    """Mated ten days apart, both need N1: the days and both dams are named."""
    (conflict,) = nursery_conflicts([claim("Bella", "N1", 10), claim("Alma", "N1", 0)])
    assert conflict.dams == ("Alma", "Bella")
    assert conflict.begins == MATED + timedelta(days=10 + 150)
    assert conflict.ends == MATED + timedelta(days=180 + 42)
    assert "N1" in conflict.sentence


def test_a_nursery_of_its_own_or_time_enough_is_no_warning() -> None:
    """Another nursery, or a litter that comes after the first has left, is fine."""
    first = claim("Alma", "N1", 0)
    assert nursery_conflicts([first, claim("Bella", "N2", 0)]) == ()
    assert nursery_conflicts([first, claim("Bella", "N1", 180 + 42 - 150)]) != ()
    assert nursery_conflicts([first, claim("Bella", "N1", 180 + 42 - 150 + 1)]) == ()


def need(dam: str, days: int, own: str = "") -> NurseryNeed:
    """Let a dam mated some days after the first need a nursery."""
    return NurseryNeed(dam, claim(dam, "", days).window, own)


def test_the_earliest_litter_takes_the_nursery_that_is_free_longest() -> None:
    """An empty nursery before one that a litter leaves in time, whoever was asked about first."""
    later = Nursery("N1", MATED + timedelta(days=100), "litter L1 to leave")
    needs = [need("Bella", 5), need("Alma", 0)]
    claims = allot_nurseries(needs, [later, Nursery("N2")])
    assert {one.dam: one.nursery for one in claims} == {"Alma": "N2", "Bella": "N1"}
    assert not_free_in_time(claims, [later, Nursery("N2")]) == ()


def test_a_dam_in_a_nursery_keeps_it() -> None:
    """She is not asked to make room for a litter that comes before hers."""
    needs = [need("Alma", 0), need("Bella", 5, own="N1")]
    claims = allot_nurseries(needs, [Nursery("N1"), Nursery("N2")])
    assert {one.dam: one.nursery for one in claims} == {"Alma": "N2", "Bella": "N1"}


def test_a_litter_that_comes_before_its_nursery_is_free_is_a_warning() -> None:
    """The tank, the day it is free, why, and the day the litter may come are named."""
    free = MATED + timedelta(days=160)
    nursery = Nursery("N1", free, "litter L1 to leave")
    claims = allot_nurseries([need("Alma", 0)], [nursery])
    (late,) = not_free_in_time(claims, [nursery])
    assert late.dams == ("Alma",)
    for told in ("N1", str(free), "litter L1", str(MATED + timedelta(days=150))):
        assert told in late.sentence
    taken = Nursery("N1", date.max, "Thea to leave")
    assert "9999" not in not_free_in_time(claims, [taken])[0].sentence


def test_without_a_nursery_nobody_has_one() -> None:
    """No claim and no warning: the house has no such tank."""
    assert allot_nurseries([need("Alma", 0)], []) == ()


@given(st.lists(st.integers(0, 400), max_size=8), st.integers(1, 4), st.permutations(range(8)))
def test_no_two_litters_share_where_there_are_tanks_enough(
    days: list[int], tanks: int, order: list[int]
) -> None:
    """As many nurseries as litters overlap on any day are enough, in whatever order they are asked.

    Interval partitioning: Kleinberg & Tardos 2006, Algorithm Design, section 4.1.
    """
    needs = [need(f"D{n}", day) for n, day in enumerate(days)]
    houses = [Nursery(f"N{n}") for n in range(tanks)]
    claims = allot_nurseries(needs, houses)
    shuffled = [needs[n] for n in order if n < len(needs)]
    assert allot_nurseries(shuffled, houses) == claims
    stays = [(one.window.earliest, one.window.latest + timedelta(days=42)) for one in needs]
    depth = max((sum(a <= b <= z for a, z in stays) for b, _ in stays), default=0)
    assert bool(nursery_conflicts(claims)) == (depth > tanks)
