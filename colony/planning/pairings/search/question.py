"""The open pairs and the breeder's wishes, put into numbers."""

import numpy as np

from colony.planning.pairings.groups import house
from colony.planning.pairings.open_pairs import OpenPairs
from colony.planning.pairings.request import Bools, Floats, Wishes
from colony.planning.pairings.search.model import PairingProblem
from colony.planning.pairings.search.objective import Objective


def pairing_question(pairs: OpenPairs, wishes: Wishes) -> PairingProblem:
    """Put the open pairs and the wishes into numbers."""
    dam, sire = pairs.places
    parents = np.concatenate([pairs.dams, pairs.sires])
    goal = Objective(
        dam=dam,
        sire=sire,
        f=pairs.f[dam, sire],
        linear=_founder_costs(pairs, wishes),
        kinship=pairs.stock.kinship[np.ix_(parents, parents)],
        dams=len(pairs.dams),
        weight=wishes.weight,
    )
    dams = [pairs.candidate(r) for r in pairs.dams]
    quotas = tuple(
        (np.array([name in {d.species, d.line} for d in dams], dtype=bool), count)
        for name, count in wishes.wanted.items()
    )
    return PairingProblem(
        objective=goal,
        capacity=np.minimum(pairs.capacity, len(pairs.dams)),
        quotas=quotas,
        must=_must(pairs, wishes),
        moves=_moves(pairs),
        house=house(pairs, wishes) if pairs.tanks else None,
        most_litters=wishes.litters,
    )


def _founder_costs(pairs: OpenPairs, wishes: Wishes) -> Floats:
    dam, sire = pairs.places
    rare = pairs.stock.rare
    if rare is None:
        return np.zeros(len(dam))
    both: Floats = rare[pairs.dams[dam]] + rare[pairs.sires[sire]]
    return -wishes.founder_weight * both / 2


def _moves(pairs: OpenPairs) -> Floats:
    """Which pairs are not yet in one tank."""
    dam, sire = pairs.places
    stock = pairs.stock
    homes = np.array([stock.home(row) or f"\0{row}" for row in range(len(stock.animals))])
    if not len(dam):
        return np.zeros(0)
    apart: Floats = (homes[pairs.dams[dam]] != homes[pairs.sires[sire]]).astype(float)
    return apart


def _must(pairs: OpenPairs, wishes: Wishes) -> Bools:
    asked = np.zeros(pairs.bar.shape, dtype=bool)
    place = pairs.numbers
    for dam, sire in wishes.must:
        asked[place[dam], place[sire]] = True
    must: Bools = asked[pairs.places]
    return must
