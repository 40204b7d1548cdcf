"""Kinds of animals: who is alike, and that a plan of kinds is worth what the plan is."""

import numpy as np
import pytest
from herds_alike import families, problem_of
from plain_colonies import stock, value

from colony.planning.pairings.request import PairingRequest
from colony.planning.pairings.search.alike import kinds, pairs_of
from colony.planning.pairings.search.descent import KindCosts


def test_full_sibs_of_one_sex_without_young_are_one_kind() -> None:
    """20 founders and 12 families of five: no kind holds animals of two families or sexes."""
    colony = stock(40, 40, kinship=families())
    problem = problem_of(colony, PairingRequest(litters=10))
    found = kinds(problem)
    kinship = colony.kinship
    for one in range(80):
        for other in range(one):
            others = [n for n in range(80) if n not in {one, other}]
            alike = (
                (one < 40) == (other < 40)
                and kinship[one, one] == kinship[other, other]
                and np.array_equal(kinship[one, others], kinship[other, others])
            )
            assert (found.kind[one] == found.kind[other]) == alike
    assert 20 < len(found.size) < 60
    assert found.size.sum() == 80


@pytest.mark.parametrize("seed", range(20))
def test_a_plan_of_kinds_is_worth_what_its_animals_are(seed: int) -> None:
    """Random counts that keep every limit, given animals: the value is that of gene by gene."""
    chance = np.random.default_rng(seed)
    colony = stock(40, 40, kinship=families())
    request = PairingRequest(litters=12, most_females=2, weight=float(chance.choice([0.5, 2.0])))
    problem = problem_of(colony, request)
    found = kinds(problem)
    counts = np.zeros(len(found.cost), int)
    while counts.sum() < 12:
        counts[chance.integers(len(counts))] += 1
        if (found.litters_of(counts) > found.most).any():
            counts[:] = 0
    chosen = pairs_of(found, problem, counts)
    assert np.array_equal(found.counts(chosen), counts)
    goal = problem.objective
    assert len(set(goal.dam[chosen].tolist())) == 12
    pairs = [(f"F{goal.dam[n]}", f"M{goal.sire[n]}") for n in chosen.tolist()]
    costs = KindCosts(found, 12, request.weight)
    assert costs.value(counts) == pytest.approx(value(colony, pairs, request.weight), abs=1e-12)


def test_a_required_pair_stands_by_itself() -> None:
    """Its dam and its sire are told apart from their sibs, and the pair stays in every plan."""
    colony = stock(40, 40, kinship=families())
    request = PairingRequest(litters=4, required_pairs=frozenset({("F12", "M20")}))
    problem = problem_of(colony, request)
    found = kinds(problem)
    assert found.size[found.kind[12]] == found.size[found.kind[40 + 20]] == 1
    assert found.required.sum() == 1
