"""The open pairs and the breeder's request, put into numbers."""

from dataclasses import dataclass
from functools import cached_property

import numpy as np

from colony.planning.arrays import Bools, Floats, Index
from colony.planning.pairings.groups import GroupTanks, alike_together, house
from colony.planning.pairings.open_pairs import OpenPairs
from colony.planning.pairings.search.objective import Objective, own_part


@dataclass(frozen=True, eq=False)
class PairingProblem:
    """What is to be solved, in numbers.

    `capacity` (b,) is how many females each sire may have; `quotas` are groups of dams (a,)
    with their most litters; `required` (P,) says which pairs are asked for; `moves` (P,) what
    share of a pair moves, where no tanks are offered. `most_litters` is None for as many as
    can be.
    """

    objective: Objective
    capacity: Index
    quotas: tuple[tuple[Bools, int], ...]
    required: Bools
    moves: Floats
    house: GroupTanks | None
    most_litters: int | None

    @cached_property
    def houses_alike(self) -> GroupTanks | None:
        """The tanks, those that are alike taken together."""
        return self.house and alike_together(self.house)

    @cached_property
    def own(self) -> Floats:
        """The part of kinship that is each parent's own."""
        return own_part(self.objective.kinship)

    @cached_property
    def curved(self) -> Floats:
        """Kinship without each parent's own part."""
        curved: Floats = self.objective.kinship - np.diag(self.own)
        return curved


def pairing_problem(pairs: OpenPairs) -> PairingProblem:
    """Put the open pairs and the request into numbers."""
    dam, sire = pairs.places
    parents = np.concatenate([pairs.dams, pairs.sires])
    goal = Objective(
        dam=dam,
        sire=sire,
        f=pairs.f[dam, sire],
        linear=_founder_costs(pairs),
        kinship=pairs.stock.kinship[np.ix_(parents, parents)],
        dams=len(pairs.dams),
        weight=pairs.request.weight,
    )
    dams = [pairs.candidate(r) for r in pairs.dams]
    quotas = tuple(
        (np.array([name in {d.species, d.line} for d in dams], dtype=bool), count)
        for name, count in pairs.request.wanted.items()
    )
    return PairingProblem(
        objective=goal,
        capacity=np.minimum(pairs.capacity, len(pairs.dams)),
        quotas=quotas,
        required=_required(pairs),
        moves=_moves(pairs),
        house=house(pairs) if pairs.tanks else None,
        most_litters=pairs.request.litters,
    )


def _founder_costs(pairs: OpenPairs) -> Floats:
    dam, sire = pairs.places
    rare = pairs.stock.rare
    if rare is None:
        return np.zeros(len(dam))
    both: Floats = rare[pairs.dams[dam]] + rare[pairs.sires[sire]]
    return -pairs.request.founder_weight * both / 2


def _moves(pairs: OpenPairs) -> Floats:
    """Which pairs are not yet in one tank."""
    dam, sire = pairs.places
    stock = pairs.stock
    homes = np.array([stock.home(row) or f"\0{row}" for row in range(len(stock.animals))])
    if not len(dam):
        return np.zeros(0)
    apart: Floats = (homes[pairs.dams[dam]] != homes[pairs.sires[sire]]).astype(float)
    return apart


def _required(pairs: OpenPairs) -> Bools:
    asked = np.zeros(pairs.bar.shape, dtype=bool)
    number = pairs.numbers
    for dam, sire in pairs.request.required_pairs:
        asked[number[dam], number[sire]] = True
    required: Bools = asked[pairs.places]
    return required
