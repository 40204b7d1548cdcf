"""How the lines between parents and pups run."""

import pytest

from colony.papers.chart.members import Family
from colony.papers.chart.places import Places
from colony.papers.chart.routes import Drop, Lanes, route_families

TWO_PUPS = Places(column={1: 0.5, 0: 1.5, 2: 0.5, 3: 1.5}, row={0: 0, 1: 0, 2: 1, 3: 1})
"""Sire 1 left of dam 0, and right below them pups 2 and 3."""


def a_family(*, share: float = 1.0, pups: tuple[int, ...] = (2, 3)) -> Family:
    """Dam 0 and sire 1 of some pups; a share below 1 is a doubt."""
    return Family(0, ((1, share),), pups, doubtful=share < 1, related=frozenset())


def test_a_line_takes_the_first_lane_in_which_it_touches_no_other() -> None:
    """Lines apart share a lane, one that overlaps takes the next, one of no width takes none."""
    lanes = Lanes()
    assert lanes.take(0, [0, 1]) == 0
    assert lanes.take(0, [3, 2]) == 0
    assert lanes.take(0, [0.5, 2.5]) == 1
    assert lanes.take(0, [4, 4]) is None
    assert lanes.take(0, [5, 6], lowest=1) == 1
    assert (lanes.count(0), lanes.count(1)) == (2, 0)


def test_parents_side_by_side_are_joined_between_them() -> None:
    """No line goes down from either; that of the pups lies in the first lane."""
    (route,), _ = route_families((a_family(),), TWO_PUPS)
    assert (route.drops, route.joint, route.joint_lane, route.pup_lane) == ((), 1.0, None, 0)
    assert route.gap == 0


def test_parents_in_doubt_are_joined_in_a_lane_above_their_pups() -> None:
    """A line comes straight down from each; only the sire's bears a share."""
    (route,), _ = route_families((a_family(share=0.75),), TWO_PUPS)
    assert route.drops == (Drop(1, 0.5, 0.75), Drop(0, 1.5, None))
    assert (route.joint, route.joint_lane, route.pup_lane) == (1.0, 0, 1)


def test_a_line_passes_beside_a_symbol_that_stands_below() -> None:
    """Animal 4 is right below the sire: his line goes 0.42 columns aside, towards the pup."""
    places = Places(column={1: 0.5, 0: 1.5, 4: 0.5, 2: 2.0}, row={0: 0, 1: 0, 4: 1, 2: 2})
    (route,), _ = route_families((a_family(pups=(2,)),), places)
    assert {drop.parent: drop.column for drop in route.drops} == pytest.approx({1: 0.92, 0: 1.5})
    assert route.gap == 1
