"""Which dam may be put with which sire, and what bars each of the other pairs."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date
from functools import cached_property
from math import pi

import numpy as np
from numpy.typing import NDArray

from colony.planning.arrays import Bools, Floats, Index
from colony.planning.pairings.eligibility import (
    FEMALE,
    MALE,
    MARGIN,
    Bar,
    Candidate,
    why_not,
    why_not_together,
)
from colony.planning.pairings.request import BreedingTank, PairingRequest, Stock

OPEN, RULED_OUT, TOO_RELATED, APART, NO_TANK = range(5)
"""What bars a pair, as numbers of an array."""

Codes = NDArray[np.int8]


@dataclass(frozen=True, eq=False)
class OpenPairs:
    """The dams and sires that may be used, and which of their pairs.

    `dams` (a,) and `sires` (b,) are rows of the stock; `bar` (a, b) says what bars each pair
    and `f` (a, b) is the F its pups would have. `capacity` (b,) is how many more females each
    sire may have. `alone` holds the reasons of those who may not be used at all.
    """

    stock: Stock
    request: PairingRequest
    tanks: tuple[BreedingTank, ...]
    dams: Index
    sires: Index
    bar: Codes
    f: Floats
    capacity: Index
    alone: dict[str, tuple[Bar, ...]]

    def candidate(self, row: int) -> Candidate:
        """Look up the animal of a row of the stock."""
        return self.stock.animals[row]

    @cached_property
    def places(self) -> tuple[Index, Index]:
        """Dam and sire number of each open pair, dams in order."""
        dam, sire = np.nonzero(self.bar == OPEN)
        return dam, sire

    @cached_property
    def numbers(self) -> dict[str, int]:
        """Number of each dam among the dams and of each sire among the sires, by tag."""
        animals = self.stock.animals
        return {animals[r].tag: n for rows in (self.dams, self.sires) for n, r in enumerate(rows)}

    def tags(self, dam: int, sire: int) -> tuple[str, str]:
        """Name the dam and the sire of a pair."""
        animals = self.stock.animals
        return animals[self.dams[dam]].tag, animals[self.sires[sire]].tag


def open_pairs(
    stock: Stock, request: PairingRequest, tanks: Sequence[BreedingTank], today: date
) -> OpenPairs:
    """Judge every animal, then every pair of those who may be used."""
    alone = _alone(stock, request, today)
    rows = [row for row, animal in enumerate(stock.animals) if animal.tag not in alone]
    dams = np.array([r for r in rows if stock.animals[r].sex == FEMALE], dtype=np.intp)
    sires = np.array([r for r in rows if stock.animals[r].sex == MALE], dtype=np.intp)
    worst = stock.worst_kinship if request.at_worst else None
    f = (stock.kinship if worst is None else worst)[np.ix_(dams, sires)]
    capacity = [_places(stock.animals[r], request) for r in sires]
    bar = _bars(stock, request, dams, sires)
    if request.highest_inbreeding is not None:
        bar[(bar == OPEN) & (f > request.highest_inbreeding + MARGIN)] = TOO_RELATED
    bar[(bar == OPEN) & ~_fits_a_tank(stock, tanks, dams, sires)] = NO_TANK
    return OpenPairs(
        stock=stock,
        request=request,
        tanks=tuple(tanks),
        dams=dams,
        sires=sires,
        bar=bar,
        f=f,
        capacity=np.array(capacity, dtype=np.intp),
        alone=alone,
    )


def kept_partners(animal: Candidate, overridden: frozenset[str]) -> tuple[str, ...]:
    """Partners of running pairings that the plan may not break."""
    if "paired" in overridden or f"paired:{animal.tag}" in overridden:
        return ()
    return tuple(tag for tag in animal.in_pairing_with if f"paired:{tag}" not in overridden)


def disc_mm2(animal: Candidate) -> float:
    """Disc area of an animal; one that was never measured counts at its mature width."""
    width = animal.width_mm if animal.width_mm is not None else animal.mature_width_mm
    return pi / 4 * (width or 0.0) ** 2


def _alone(stock: Stock, request: PairingRequest, today: date) -> dict[str, tuple[Bar, ...]]:
    found = {}
    for animal in stock.animals:
        kept = kept_partners(animal, request.overridden)
        judged = replace(animal, in_pairing_with=kept, most_females=_most(animal, request))
        reasons = why_not(judged, today, request.overridden)
        if animal.sex not in {FEMALE, MALE} and not reasons:
            reasons = (Bar("sex", "a plan must know its sex: look for claspers"),)
        if animal.tag in request.excluded:
            reasons = (Bar("without", "left out as asked"), *reasons)
        if reasons:
            found[animal.tag] = reasons
    return found


def _most(animal: Candidate, request: PairingRequest) -> int:
    return request.most_females if animal.most_females is None else animal.most_females


def _places(animal: Candidate, request: PairingRequest) -> int:
    most = _most(animal, request)
    if request.group_size is not None:
        most = min(most, request.group_size)
    return max(most - len(kept_partners(animal, request.overridden)), 0)


def _bars(stock: Stock, request: PairingRequest, dams: Index, sires: Index) -> Codes:
    """Try the rules about a pair once for each two kinds of animal, and the pairs kept apart."""
    animals = stock.animals
    of_dams, dam_kinds = _kinds([animals[r] for r in dams], request)
    of_sires, sire_kinds = _kinds([animals[r] for r in sires], request)
    barred = [
        [bool(why_not_together(d, s, request.overridden)) for s in sire_kinds] for d in dam_kinds
    ]
    table = np.array(barred, dtype=bool).reshape(len(dam_kinds), len(sire_kinds))
    bar = np.where(table[np.ix_(of_dams, of_sires)], RULED_OUT, OPEN).astype(np.int8)
    place = {animals[r].tag: n for rows in (dams, sires) for n, r in enumerate(rows)}
    for dam, sire in request.forbidden_pairs:
        if dam in place and sire in place:
            bar[place[dam], place[sire]] = APART
    return bar


def _kinds(animals: Sequence[Candidate], request: PairingRequest) -> tuple[Index, list[Candidate]]:
    """Sort animals into kinds that the rules about a pair cannot tell apart, one of each."""
    named = {word.split(":", 1)[1] for word in request.overridden if ":" in word}
    kinds: dict[tuple[str | None, ...], int] = {}
    examples: list[Candidate] = []
    numbers = []
    for animal in animals:
        kind = (
            animal.species,
            animal.line,
            animal.tag if animal.tag in named or not animal.species else None,
        )
        if kind not in kinds:
            kinds[kind] = len(examples)
            examples.append(animal)
        numbers.append(kinds[kind])
    return np.array(numbers, dtype=np.intp), examples


def _fits_a_tank(stock: Stock, tanks: Sequence[BreedingTank], dams: Index, sires: Index) -> Bools:
    fits = np.zeros((len(dams), len(sires)), dtype=bool)
    females, males = ([stock.animals[r] for r in rows] for rows in (dams, sires))
    disc_area_mm2 = np.add.outer(
        *(np.array([disc_mm2(a) for a in some], dtype=float) for some in (females, males))
    )
    for tank in tanks:
        narrow = np.logical_and.outer(within(females, tank), within(males, tank))
        fits |= narrow & (disc_area_mm2 <= tank.room_mm2 * (1 + MARGIN))
    return fits if tanks else np.ones_like(fits)


def within(animals: Sequence[Candidate], tank: BreedingTank) -> Bools:
    """Tell which animals the sides of a tank allow."""
    widths = [animal.width_mm or animal.mature_width_mm or 0.0 for animal in animals]
    return np.array(widths, dtype=float) <= tank.widest_mm
