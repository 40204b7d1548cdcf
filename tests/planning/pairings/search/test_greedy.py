"""Pairs taken one by one: every constraint kept, and nothing left that still fits."""

import numpy as np
import pytest
from plain_colonies import TODAY, stock

from colony.planning.pairings.open_pairs import open_pairs
from colony.planning.pairings.request import BreedingTank, PairingRequest
from colony.planning.pairings.search.greedy import greedy_pairs
from colony.planning.pairings.search.problem import PairingProblem, pairing_problem

LARGE = BreedingTank("L", 1e6)


def problem_of(request: PairingRequest, *tanks: BreedingTank) -> PairingProblem:
    """Six dams and three sires, asked for in this way."""
    return pairing_problem(open_pairs(stock(6, 3, 1), request, tanks, TODAY))


@pytest.mark.parametrize("seed", range(5))
def test_no_pair_that_still_fits_is_passed_over(seed: int) -> None:
    """Each dam has one sire, each sire two dams at most; of the pairs left none fits any more."""
    problem = problem_of(PairingRequest(most_females=2, litters=5))
    order = np.random.default_rng(seed).permutation(len(problem.required))
    dams, sires = problem.objective.dam, problem.objective.sire
    chosen = greedy_pairs(problem, order)
    assert len(chosen) == len(set(dams[chosen].tolist())) == 5
    assert np.bincount(sires[chosen]).max() <= 2


def test_required_pairs_come_first() -> None:
    """A pair that is required is taken before the cheaper ones of its dam and its sire."""
    required = frozenset({("F0", "M2")})
    problem = problem_of(PairingRequest(most_females=1, required_pairs=required))
    cheapest = np.argsort(problem.objective.f)
    chosen = greedy_pairs(problem, cheapest)
    assert problem.required[chosen[0]]
    assert len(chosen) == 3


def test_a_tank_holds_one_sire_and_the_discs_that_fit() -> None:
    """One large tank: one sire alone has females, and their discs leave room for his."""
    problem = problem_of(PairingRequest(), LARGE)
    house = problem.house
    assert house is not None
    chosen = greedy_pairs(problem, np.arange(len(problem.required)))
    (sire,) = set(problem.objective.sire[chosen].tolist())
    used = house.sire_mm2[sire] + house.dam_mm2[problem.objective.dam[chosen]].sum()
    assert used <= LARGE.room_mm2
    assert len(chosen) > 1
