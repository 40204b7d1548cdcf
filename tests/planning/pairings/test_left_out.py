"""Why an animal has no place in a plan."""

from dataclasses import replace

import numpy as np
from pairing_plans import changed, pairs, plan_of, reasons
from plain_colonies import stock

from colony.planning.pairings.request import BreedingTank


def test_all_related_is_told() -> None:
    """When every pair is related the plan says so, and a limit leaves all out with the count."""
    kinship = np.full((4, 4), 0.25) + np.eye(4) / 4
    colony = replace(stock(2, 2), kinship=kinship)
    plan = plan_of(colony)
    assert len(plan.pairs) == 2
    assert "every pair that is open is related: the least F is 0.2500" in plan.notes
    barred = plan_of(colony, highest_inbreeding=0.125)
    assert barred.pairs == ()
    assert reasons(barred)["F0"] == ["partner: no male for it: 2 too related (least F 0.2500)"]


def test_a_species_without_a_male_is_told() -> None:
    """Females of a species without a male are left out with the reason; crosses are asked for."""
    colony = changed(stock(3, 2), F0={"species": "motoro"})
    plan = plan_of(colony, wanted={"motoro": 1})
    assert reasons(plan)["F0"] == ["partner: no male for it: 2 of another species or line"]
    assert "litters of motoro: 1 asked for, 0 can be" in plan.notes
    crossed = plan_of(colony, overridden=frozenset({"species:F0"}))
    named = {pair.dam: [r.name for r in pair.reasons] for pair in crossed.pairs}
    assert named == {"F0": ["species"], "F1": [], "F2": []}


def test_without_an_animal_it_is_left_out_as_asked() -> None:
    """What-if: an animal taken out of the plan is named with that reason."""
    plan = plan_of(stock(3, 2), excluded=frozenset({"M0"}))
    assert {sire for _, sire in pairs(plan)} == {"M1"}
    assert reasons(plan)["M0"] == ["without: left out as asked"]


def test_no_tank_large_enough_is_told() -> None:
    """A pair that no tank holds is left out for that."""
    plan = plan_of(stock(1, 1), BreedingTank("T0", 9e5, widest_mm=400))
    assert reasons(plan)["F0"] == ["partner: no male for it: 1 without a tank for both"]


def test_an_animal_of_unknown_sex_has_no_place() -> None:
    """A plan must know whether it is a dam or a sire, even if the rule is overridden."""
    colony = changed(stock(2, 1), F1={"sex": "U"})
    told = reasons(plan_of(colony, overridden=frozenset({"sex"})))
    assert told["F1"] == ["sex: a plan must know its sex: look for claspers"]
