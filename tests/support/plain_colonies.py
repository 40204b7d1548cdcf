"""Invented colonies for the planner, and slow plain answers to hold it against."""

from collections.abc import Iterator, Sequence
from datetime import date
from functools import cache
from itertools import product

import numpy as np
from numpy.typing import NDArray

from colony.planning.arrays import Floats
from colony.planning.pairings.eligibility import Candidate
from colony.planning.pairings.request import BreedingTank, Pair, PairingRequest, Stock

TODAY = date(2024, 6, 1)


def colony_kinship(count: int, seed: int, founders: int = 6) -> Floats:
    """Kinship of the youngest `count` animals of a random pedigree, by the tabular method."""
    chance = np.random.default_rng(seed)
    total = founders + 2 * count
    kinship = np.eye(total) / 2
    for one in range(founders, total):
        dam, sire = chance.choice(one, 2, replace=False)
        kinship[one, :one] = kinship[:one, one] = (kinship[dam, :one] + kinship[sire, :one]) / 2
        kinship[one, one] = (1 + kinship[dam, sire]) / 2
    return kinship[-count:, -count:].copy()


def stock(dams: int, sires: int, seed: int = 0, *, kinship: Floats | None = None) -> Stock:
    """Invent a colony of mature animals of one species, in random tanks."""
    chance = np.random.default_rng(seed)
    animals = [
        Candidate(
            f"F{n}", "F", "leopoldi", width_mm=float(chance.integers(430, 520)), mature_seen=True
        )
        for n in range(dams)
    ] + [
        Candidate(
            f"M{n}", "M", "leopoldi", width_mm=float(chance.integers(340, 400)), mature_seen=True
        )
        for n in range(sires)
    ]
    homes = tuple(f"T{chance.integers(0, 8)}" for _ in animals)
    if kinship is None:
        kinship = colony_kinship(len(animals), seed)
    return Stock(tuple(animals), kinship, homes)


def value(colony: Stock, pairs: Sequence[Pair], weight: float = 1.0) -> float:
    """Mean F of the litters plus weighted mean kinship of the next generation, gene by gene."""
    row = {one.tag: n for n, one in enumerate(colony.animals)}
    genes = [row[tag] for pair in pairs for tag in pair]
    kinship = colony.kinship
    inbreeding = np.mean([kinship[row[dam], row[sire]] for dam, sire in pairs])
    between = np.mean([kinship[gene, other] for gene in genes for other in genes])
    return float(inbreeding + weight * between)


@cache
def _sire_of_each(dams: int, sires: int, capacity: int) -> NDArray[np.int64]:
    """All ways to give each dam a sire, shape (ways, dams)."""
    ways = np.indices((sires,) * dams).reshape(dams, -1).T
    served = np.stack([(ways == sire).sum(axis=1) for sire in range(sires)], axis=1)
    return ways[(served <= capacity).all(axis=1)]


def best_of_all(colony: Stock, dams: int, capacity: int, weight: float = 1.0) -> float:
    """Find the least value over every plan in which each dam has a sire."""
    kinship, sires = colony.kinship, len(colony.animals) - dams
    ways = _sire_of_each(dams, sires, capacity)
    inbreeding = sum(kinship[dam, dams + ways[:, dam]] for dam in range(dams)) / dams
    genes = np.ones((len(ways), len(colony.animals)))
    for sire in range(sires):
        genes[:, dams + sire] = (ways == sire).sum(axis=1)
    between = ((genes @ kinship) * genes).sum(axis=1) / (2 * dams) ** 2
    return float((inbreeding + weight * between).min())


def every_plan(dams: int, sires: int) -> Iterator[tuple[tuple[int, int], ...]]:
    """Every set of pairs in which each dam has one sire or none."""
    for ways in product(range(-1, sires), repeat=dams):
        yield tuple((dam, sire) for dam, sire in enumerate(ways) if sire >= 0)


def broken(
    colony: Stock,
    request: PairingRequest,
    tanks: Sequence[BreedingTank],
    pairs: Sequence[Pair],
    where: dict[str, str | None],
) -> list[str]:
    """Name the constraints that a plan breaks, looked at one by one."""
    animals = {animal.tag: animal for animal in colony.animals}
    males = {sire: [d for d, s in pairs if s == sire] for _, sire in pairs}
    found = [
        *_overworked(animals, request, males),
        *_badly_paired(colony, request, pairs),
        *_miscounted(animals, request, pairs),
    ]
    return found + (_badly_housed(animals, tanks, males, where) if tanks else [])


def _overworked(
    animals: dict[str, Candidate], request: PairingRequest, males: dict[str, list[str]]
) -> Iterator[str]:
    dams = [dam for theirs in males.values() for dam in theirs]
    if len(set(dams)) < len(dams):
        yield "two sires for a dam"
    for sire, theirs in males.items():
        most = animals[sire].most_females
        if len(theirs) > (request.most_females if most is None else most):
            yield f"too many females for {sire}"
        if request.group_size is not None and len(theirs) > request.group_size:
            yield f"too many females beside {sire}"


def _badly_paired(colony: Stock, request: PairingRequest, pairs: Sequence[Pair]) -> Iterator[str]:
    row = {one.tag: n for n, one in enumerate(colony.animals)}
    limit = np.inf if request.highest_inbreeding is None else request.highest_inbreeding
    for dam, sire in pairs:
        one, other = colony.animals[row[dam]], colony.animals[row[sire]]
        if colony.kinship[row[dam], row[sire]] > limit + 1e-9:
            yield f"{dam} x {sire} over the limit"
        if (one.sex, other.sex) != ("F", "M"):
            yield f"{dam} x {sire} of the wrong sex"
        if one.species != other.species:
            yield f"{dam} x {sire} of two species"


def _miscounted(
    animals: dict[str, Candidate], request: PairingRequest, pairs: Sequence[Pair]
) -> Iterator[str]:
    if request.litters is not None and len(pairs) > request.litters:
        yield "too many litters"
    for name, count in request.wanted.items():
        if sum(animals[dam].species == name for dam, _ in pairs) > count:
            yield f"too many litters of {name}"
    if not request.required_pairs <= set(pairs) or request.forbidden_pairs & set(pairs):
        yield "a pair that must be is not, or one that must not be is"
    if any(tag in request.excluded for pair in pairs for tag in pair):
        yield "an animal that is to be left out"


def _badly_housed(
    animals: dict[str, Candidate],
    tanks: Sequence[BreedingTank],
    males: dict[str, list[str]],
    where: dict[str, str | None],
) -> list[str]:
    offered = {tank.code: tank for tank in tanks}
    used = [where[sire] for sire in males]
    found = ["two groups in a tank"] if len(set(used)) < len(used) else []
    for sire, dams in males.items():
        tank = offered[where[sire] or ""]
        widths = [animals[tag].width_mm or 0.0 for tag in (sire, *dams)]
        if sum(np.pi / 4 * width**2 for width in widths) > tank.room_mm2 * (1 + 1e-5):
            found.append(f"{tank.code} is too full")
        if max(widths) > tank.widest_mm:
            found.append(f"{tank.code} is too narrow")
    return found
