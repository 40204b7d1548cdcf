"""What was asked for, in numbers."""

import numpy as np
from plain_colonies import TODAY, stock

from colony.planning.pairings.open_pairs import open_pairs
from colony.planning.pairings.request import PairingRequest
from colony.planning.pairings.search.problem import PairingProblem, pairing_problem


def problem_of(**request: object) -> PairingProblem:
    """Four dams and two sires, asked for in this way."""
    asked = PairingRequest(**request)  # type: ignore[arg-type] # facts by name
    return pairing_problem(open_pairs(stock(4, 2), asked, (), TODAY))


def test_a_request_becomes_capacities_quotas_and_required_pairs() -> None:
    """Each part of a request has its place among the numbers."""
    problem = problem_of(
        most_females=3, litters=2, wanted={"leopoldi": 1}, required_pairs=frozenset({("F1", "M0")})
    )
    assert problem.capacity.tolist() == [3, 3]
    assert problem.most_litters == 2
    ((dams, most),) = problem.quotas
    assert (dams.tolist(), most) == ([True] * 4, 1)
    (required,) = np.flatnonzero(problem.required)
    assert (problem.objective.dam[required], problem.objective.sire[required]) == (1, 0)


def test_forbidden_pairs_and_the_excluded_are_no_open_pairs() -> None:
    """Eight pairs, less one that is forbidden, less the other three of a sire left out."""
    assert len(problem_of().required) == 8
    assert len(problem_of(forbidden_pairs=frozenset({("F0", "M0")})).required) == 7
    assert len(problem_of(excluded=frozenset({"M0"})).required) == 4


def test_the_own_part_and_the_curved_part_are_kinship() -> None:
    """Split in two and put together again, it is the kinship of the parents."""
    problem = problem_of()
    whole = problem.curved + np.diag(problem.own)
    assert np.allclose(whole, problem.objective.kinship, atol=1e-12)
