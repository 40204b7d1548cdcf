"""Breeding groups: one tank, one male, and the females whose discs fit beside him."""

from collections import defaultdict
from dataclasses import dataclass, replace
from functools import cached_property

import numpy as np

from colony.planning.arrays import Bools, Floats, Index
from colony.planning.pairings.open_pairs import OpenPairs, disc_mm2, kept_partners, within

SLACK = 1e-9
"""Areas are summed in floating point: this share over is not over."""

NOWHERE = -1
"""The tank number of an animal that is in none of the tanks offered."""


@dataclass(frozen=True, eq=False)
class GroupTanks:
    """The t tanks offered, as the a dams and b sires of a plan meet them.

    `room_mm2` (t,) is what each holds; `dam_mm2` (a,) and `sire_mm2` (b,) are disc areas, a
    sire's with those of the females he keeps. `dam_fits` (a, t) and `sire_may` (b, t) say who
    may be where: a sire who keeps females stays with them, and nobody joins another's group.
    `dam_home` and `sire_home` are tank numbers, or NOWHERE. `alike` (t,) is how many tanks
    each stands for: 1, until tanks that differ in nothing are taken together.
    """

    room_mm2: Floats
    dam_mm2: Floats
    sire_mm2: Floats
    dam_fits: Bools
    sire_may: Bools
    dam_home: Index
    sire_home: Index
    alike: Index

    @cached_property
    def most_beside(self) -> Index:
        """Most females that fit beside each sire in each tank, shape (b, t)."""
        most = np.zeros(self.sire_may.shape, dtype=np.intp)
        for tank, room in enumerate(self.room_mm2.tolist()):
            smallest = np.cumsum(np.sort(self.dam_mm2[self.dam_fits[:, tank]]))
            left = (room - self.sire_mm2) * (1 + SLACK)
            most[:, tank] = np.searchsorted(smallest, left, side="right")
        return np.where(self.sire_may, most, 0)


def alike_together(house: GroupTanks) -> GroupTanks:
    """Take tanks together that differ in nothing but who is in them today."""
    kinds: dict[tuple[float, bytes, bytes], list[int]] = defaultdict(list)
    for tank, room in enumerate(house.room_mm2.tolist()):
        fits, may = house.dam_fits[:, tank].tobytes(), house.sire_may[:, tank].tobytes()
        kinds[room, fits, may].append(tank)
    first = np.array([tanks[0] for tanks in kinds.values()], dtype=np.intp)
    return replace(
        house,
        room_mm2=house.room_mm2[first],
        dam_fits=house.dam_fits[:, first],
        sire_may=house.sire_may[:, first],
        dam_home=np.full(len(house.dam_home), NOWHERE),
        sire_home=np.full(len(house.sire_home), NOWHERE),
        alike=np.array([len(tanks) for tanks in kinds.values()], dtype=np.intp),
    )


def house(pairs: OpenPairs) -> GroupTanks:
    """Measure the tanks offered and the animals that may go into them."""
    stock, tanks = pairs.stock, pairs.tanks
    code = {tank.code: n for n, tank in enumerate(tanks)}
    home = [code.get(stock.home(row) or "", NOWHERE) for row in range(len(stock.animals))]
    kept = {animal.tag: kept_partners(animal, pairs.request.overridden) for animal in stock.animals}
    disc = {animal.tag: disc_mm2(animal) for animal in stock.animals}
    sires, dams = ([pairs.candidate(r) for r in rows] for rows in (pairs.sires, pairs.dams))
    occupied = {home[row] for row, animal in enumerate(stock.animals) if kept[animal.tag]}
    may = np.array(
        [within(sires, t) & (n not in occupied) for n, t in enumerate(tanks)], dtype=bool
    ).reshape(len(tanks), len(sires))
    for n, (row, sire) in enumerate(zip(pairs.sires, sires, strict=True)):
        if kept[sire.tag]:
            may[:, n] = [tank == home[row] for tank in range(len(tanks))]
    return GroupTanks(
        room_mm2=np.array([tank.room_mm2 for tank in tanks], dtype=float),
        dam_mm2=np.array([disc[dam.tag] for dam in dams], dtype=float),
        sire_mm2=np.array(
            [disc[s.tag] + sum(disc.get(d, 0.0) for d in kept[s.tag]) for s in sires], dtype=float
        ),
        dam_fits=np.array([within(dams, t) for t in tanks], dtype=bool)
        .reshape(len(tanks), len(dams))
        .T,
        sire_may=may.T,
        dam_home=np.array([home[r] for r in pairs.dams], dtype=np.intp),
        sire_home=np.array([home[r] for r in pairs.sires], dtype=np.intp),
        alike=np.ones(len(tanks), dtype=np.intp),
    )
