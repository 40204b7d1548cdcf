"""Rules of thumb to hold a plan against: least kin first, and chance."""

from collections.abc import Sequence
from datetime import date
from typing import Literal

import numpy as np

from colony.planning.arrays import Index
from colony.planning.pairings.open_pairs import open_pairs
from colony.planning.pairings.request import BreedingTank, Pair, PairingRequest, Stock
from colony.planning.pairings.search.greedy import greedy_pairs
from colony.planning.pairings.search.problem import PairingProblem, pairing_problem

Rule = Literal["least kin first", "random"]


def baseline_pairs(  # noqa: PLR0913 - what a plan takes, and the rule and seed
    stock: Stock,
    request: PairingRequest,
    tanks: Sequence[BreedingTank] = (),
    *,
    rule: Rule,
    today: date,
    seed: int = 0,
) -> tuple[Pair, ...]:
    """Pair a colony by a rule of thumb that keeps every constraint.

    "least kin first" takes the pair of the least F whose dam and sire are still free, then
    the next; "random" takes pairs in an order drawn with the seed.
    """
    pairs = open_pairs(stock, request, tanks, today)
    problem = pairing_problem(pairs)
    order = order_of(problem, rule, np.random.default_rng(seed))
    dam, sire = pairs.places
    return tuple(pairs.tags(int(dam[p]), int(sire[p])) for p in greedy_pairs(problem, order))


def order_of(problem: PairingProblem, rule: Rule, chance: np.random.Generator) -> Index:
    """Find the order in which a rule tries the open pairs."""
    if rule == "random":
        return chance.permutation(len(problem.required))
    return np.lexsort((problem.objective.sire, problem.objective.dam, problem.objective.f))
