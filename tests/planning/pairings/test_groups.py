"""Breeding groups and the tanks that hold them."""

from dataclasses import replace

import numpy as np
from pairing_plans import changed, pairs, plan_of, reasons
from plain_colonies import stock

from colony.planning.pairings.eligibility import Candidate
from colony.planning.pairings.request import BreedingTank, Stock


def test_a_group_that_runs_keeps_its_tank() -> None:
    """A male with a female he keeps is joined where he is, if her disc leaves room."""
    colony = changed(
        replace(stock(3, 2), homes=("A", "B", "B", "A", "B")),
        F0={"in_pairing_with": ("M0",), "width_mm": 450.0},
        M0={"in_pairing_with": ("F0",)},
    )
    wide, narrow = (BreedingTank("A", room) for room in (8e5, 4e5))
    spare = BreedingTank("B", 8e5)
    for dam, tank in ((("F1"), wide), (("F1"), narrow)):
        plan = plan_of(colony, tank, spare, forbidden_pairs=frozenset({(dam, "M1")}))
        where = {pair.dam: (pair.sire, pair.tank) for pair in plan.pairs}
        assert where.get(dam) == (("M0", "A") if tank is wide else None)
        assert where["F2"] in {("M1", "B"), ("M0", "A")}


def test_a_large_disc_takes_more_room_than_a_small_one() -> None:
    """Of three females two fit beside the male, but not with the large one, though least kin."""
    widths = {"F0": 430.0, "F1": 430.0, "F2": 520.0, "M0": 350.0}
    colony = changed(stock(3, 1), **{tag: {"width_mm": width} for tag, width in widths.items()})
    kinship = np.eye(4) / 2
    kinship[:2, 3] = kinship[3, :2] = 0.1
    room = np.pi / 4 * (350**2 + 2 * 430**2)
    plan = plan_of(replace(colony, kinship=kinship), BreedingTank("T0", room))
    assert pairs(plan) == {("F0", "M0"), ("F1", "M0")}
    why = "place: eligible, but the plan had no place: no tank has room for her beside a male "
    assert reasons(plan)["F2"] == [why + "open to her: M0"]


def test_a_width_never_measured_counts_as_mature() -> None:
    """An adult without a width takes the room of a mature one, not none."""
    unknown = Candidate("F0", "F", "leopoldi", mature_width_mm=430.0, mature_seen=True)
    male = replace(unknown, tag="M0", sex="M", mature_width_mm=340.0)
    colony = Stock((unknown, male), np.eye(2) / 2)
    assert plan_of(colony, BreedingTank("T0", 2.3e5)).pairs == ()
    assert len(plan_of(colony, BreedingTank("T0", 2.4e5)).pairs) == 1
