"""Rules of thumb to hold a plan against: least kin first, and chance."""

from collections.abc import Sequence
from datetime import date
from typing import Literal

import numpy as np

from colony.planning.pairings.open_pairs import open_pairs
from colony.planning.pairings.request import BreedingTank, Index, Pair, Stock, Wishes
from colony.planning.pairings.search.greedy import filled
from colony.planning.pairings.search.model import PairingProblem
from colony.planning.pairings.search.question import pairing_question

Rule = Literal["least kin first", "random"]


def rival_pairs(  # noqa: PLR0913 - what a plan takes, and the rule and seed
    stock: Stock,
    wishes: Wishes,
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
    pairs = open_pairs(stock, wishes, tanks, today)
    question = pairing_question(pairs, wishes)
    order = order_of(question, rule, np.random.default_rng(seed))
    dam, sire = pairs.places
    return tuple(pairs.tags(int(dam[p]), int(sire[p])) for p in filled(question, order))


def order_of(question: PairingProblem, rule: Rule, chance: np.random.Generator) -> Index:
    """Find the order in which a rule tries the open pairs."""
    if rule == "random":
        return chance.permutation(len(question.must))
    return np.lexsort((question.objective.sire, question.objective.dam, question.objective.f))
