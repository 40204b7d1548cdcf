"""Rules of thumb to hold a plan against: least kin first, and chance."""

from collections.abc import Sequence
from datetime import date
from typing import Literal

import numpy as np

from colony.planning.pairing_model import Question
from colony.planning.pairing_pairs import open_pairs
from colony.planning.pairing_question import pairing_question
from colony.planning.pairing_taking import filled
from colony.planning.pairing_wishes import BreedingTank, Index, Pair, Stock, Wishes

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


def order_of(question: Question, rule: Rule, chance: np.random.Generator) -> Index:
    """Find the order in which a rule tries the open pairs."""
    if rule == "random":
        return chance.permutation(len(question.must))
    return np.lexsort((question.objective.sire, question.objective.dam, question.objective.f))
