"""Rules of thumb to hold a plan against: least kin first, and chance."""

from collections.abc import Sequence
from dataclasses import dataclass, field
from datetime import date
from typing import Literal

import numpy as np

from colony.planning.pairing_model import Question
from colony.planning.pairing_pairs import open_pairs
from colony.planning.pairing_question import pairing_question
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


def filled(question: Question, order: Index) -> Index:
    """Take pairs in an order, as long as each still fits; those that must be come first."""
    places = _Places(question)
    must = np.flatnonzero(question.must)
    tried = [*must.tolist(), *order.tolist()]
    return np.array([pair for pair in tried if places.take(pair)], dtype=np.intp)


@dataclass
class _Places:
    """What is still free while pairs are taken one by one."""

    question: Question
    free: list[bool] = field(init=False)
    left: list[int] = field(init=False)
    quotas: list[int] = field(init=False)
    litters: float = field(init=False)
    tank_of: dict[int, int] = field(default_factory=dict)
    room: dict[int, float] = field(default_factory=dict)

    def __post_init__(self) -> None:
        most = self.question.most_litters
        self.free = [True] * self.question.objective.dams
        self.left = self.question.capacity.tolist()
        self.quotas = [count for _, count in self.question.quotas]
        self.litters = np.inf if most is None else most

    def take(self, pair: int) -> bool:
        """Take a pair if it fits."""
        goal = self.question.objective
        dam, sire = int(goal.dam[pair]), int(goal.sire[pair])
        asked = [n for n, (dams, _) in enumerate(self.question.quotas) if dams[dam]]
        if not (self.litters and self.free[dam] and self.left[sire]):
            return False
        if not all(self.quotas[n] for n in asked) or not self._housed(dam, sire):
            return False
        self.free[dam] = False
        self.left[sire] -= 1
        self.litters -= 1
        for n in asked:
            self.quotas[n] -= 1
        return True

    def _housed(self, dam: int, sire: int) -> bool:
        house = self.question.house
        if house is None:
            return True
        tank = self.tank_of.get(sire)
        if tank is None:
            taken = set(self.tank_of.values())
            rooms = [
                (-house.room_mm2[t], t)
                for t in np.flatnonzero(house.sire_may[sire] & house.dam_fits[dam]).tolist()
                if t not in taken
            ]
            if not rooms:
                return False
            tank = min(rooms)[1]
            self.room[sire] = float(house.room_mm2[tank] - house.sire_mm2[sire])
        if not house.dam_fits[dam, tank] or self.room[sire] < house.dam_mm2[dam]:
            return False
        self.tank_of[sire] = tank
        self.room[sire] -= float(house.dam_mm2[dam])
        return True
