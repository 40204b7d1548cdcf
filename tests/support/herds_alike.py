"""A herd of families whose animals are alike, put to the planner in numbers."""

import numpy as np
from plain_colonies import TODAY, stock

from colony.planning.arrays import Floats
from colony.planning.pairings.open_pairs import open_pairs
from colony.planning.pairings.request import PairingRequest, Stock
from colony.planning.pairings.search.alike import kinds
from colony.planning.pairings.search.descent import KindCosts
from colony.planning.pairings.search.problem import PairingProblem, pairing_problem


def families() -> Floats:
    """Kinship of 20 unrelated founders and 12 full-sib families of five, females first.

    The tabular method: Emik & Terrill 1949, J. Hered. 40:51-55.
    """
    kinship = np.eye(80) / 2
    for one in range(20, 80):
        family = (one - 20) // 5
        dam, sire = family % 10, 10 + 3 * family % 10
        kinship[one, :one] = kinship[:one, one] = (kinship[dam, :one] + kinship[sire, :one]) / 2
    females = [*range(10), *range(20, 80, 2)]
    rows = [*females, *(row for row in range(80) if row not in females)]
    return kinship[np.ix_(rows, rows)]


def problem_of(colony: Stock, request: PairingRequest) -> PairingProblem:
    """Put a colony without tanks and a request into numbers."""
    return pairing_problem(open_pairs(colony, request, (), TODAY))


def family_costs(litters: int, most_females: int) -> KindCosts:
    """What plans of so many litters of the families cost, by kinds, at weight 1."""
    request = PairingRequest(litters=litters, most_females=most_females)
    problem = problem_of(stock(40, 40, kinship=families()), request)
    return KindCosts(kinds(problem), litters, 1.0)
