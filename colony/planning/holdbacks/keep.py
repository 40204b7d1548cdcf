"""Which pups become breeders of the house: the least mean kinship of the herd to come, exactly.

The herd to come is the breeders that are here, each weighted by the years in which it may still
breed, and the kept pups. Minimum mean kinship: Ballou & Lacy 1995; a choice of parents that costs the
least kinship: Meuwissen 1997, J. Anim. Sci. 75:934-940; weights of overlapping generations: Sonesson &
Meuwissen 2001 (all from memory). Products of choices are made linear as in Glover 1975 (from memory),
and HiGHS proves what is best.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np

from colony.planning.arrays import Bools, Floats, Index
from colony.planning.solver.highs import solve
from colony.planning.solver.model import LinearModel

NODES = 200_000
TOLERANCE = 1e-9
LEAST_SECONDS = 0.2

Way = tuple[float, float, tuple[int, ...]]
"""A choice within one species: the mean kinship to come, what is forgone, and who."""


@dataclass(frozen=True, eq=False)
class BreedingHerd:
    """One species: breeders b with their years, and pups p that may be kept.

    ``among_breeders`` is (b, b), ``with_breeders`` (p, b), ``among_pups`` (p, p); `years` (b,) those
    left to each breeder, `pup_years` those of a pup. `sexes` are of the pups, `breeder_sexes` of the
    breeders: F, M or U. `prices` (p,) is what is forgone, `family` equal for full sibs.
    """

    among_breeders: Floats
    with_breeders: Floats
    among_pups: Floats
    years: Floats
    pup_years: float
    sexes: Sequence[str]
    breeder_sexes: Sequence[str]
    prices: Floats
    family: Sequence[str]

    def mean_kinship(self, kept: Sequence[int] = ()) -> float:
        """Of the herd to come, with some pups kept; 0 of an empty herd."""
        places = list(kept)
        years = np.concatenate([self.years, np.full(len(places), self.pup_years)])
        if not years.sum():
            return 0.0
        beside = self.with_breeders[places]
        matrix = np.block(
            [[self.among_breeders, beside.T], [beside, self.among_pups[np.ix_(places, places)]]]
        )
        return float(years @ matrix @ years / years.sum() ** 2)


@dataclass(frozen=True)
class KeepRules:
    """How related a kept pup and some partner may be, and what may be forgone in all."""

    kinship_limit: float = 1.0
    cost_max: float = np.inf


@dataclass(frozen=True)
class KeptPups:
    """The pups that are kept of each species, by their places, and whether nothing is better."""

    chosen: tuple[tuple[int, ...], ...]
    proven: bool


def keep(
    herds: Sequence[BreedingHerd],
    slots: int,
    rules: KeepRules,
    *,
    seconds: float,
    clock: Callable[[], float],
) -> KeptPups:
    """Choose so many pups of several species, the least sum of their mean kinships first.

    Every slot is filled that can be: with a partner for each and the money that there is. With a limit
    on price over several species the choice is good and not proved: a cheaper choice of the same
    number is not weighed within a species.
    """
    until = clock() + seconds
    proven = len(herds) <= 1 or not np.isfinite(rules.cost_max)
    options: list[list[Way]] = []
    for herd in herds:
        found: list[Way] = [(herd.mean_kinship(), 0.0, ())]
        for count in range(1, min(slots, len(herd.sexes)) + 1):
            left = max(until - clock(), LEAST_SECONDS)
            chosen, sure = best_of(herd, count, rules, seconds=left)
            proven &= sure
            if chosen is not None:
                cost = float(herd.prices[list(chosen)].sum())
                found.append((herd.mean_kinship(chosen), cost, chosen))
        options.append(found)
    return KeptPups(_shared(options, slots, rules.cost_max), proven)


def best_of(
    herd: BreedingHerd, count: int, rules: KeepRules, *, seconds: float
) -> tuple[tuple[int, ...] | None, bool]:
    """The pups, exactly so many, of the least mean kinship to come; and whether that is proved.

    Of equal choices the one with the least kinship to possible partners among the breeders.
    """
    pups = len(herd.sexes)
    model = LinearModel()
    linear = 2 * herd.pup_years * (herd.with_breeders @ herd.years)
    linear = linear + herd.pup_years**2 * np.diag(herd.among_pups)
    # So small that only equal choices are told apart by it.
    scale = max(float(np.abs(linear).max(initial=0.0)), 1.0)
    units = model.add_variables(pups, cost=linear + 1e-7 * scale * _nearest(herd))
    _count(model, units, count)
    _products(model, units, herd, count)
    _partners(model, units, herd, rules.kinship_limit)
    _sibs(model, units, herd)
    if np.isfinite(rules.cost_max):
        row = model.add_rows(high=rules.cost_max)
        model.put(row, units, herd.prices)
    found = solve(model, seconds=seconds, nodes=NODES)
    chosen = found.chosen(units)
    if chosen is None:
        return None, found.impossible
    return tuple(chosen.tolist()), found.proved


def _count(model: LinearModel, units: Index, count: int) -> None:
    row = model.add_rows(low=float(count), high=float(count))
    model.put(row, units, 1.0)


def _products(model: LinearModel, units: Index, herd: BreedingHerd, count: int) -> None:
    """The kinship of each kept pup with the other kept ones, counted where it is kept."""
    kinship = herd.among_pups - np.diag(np.diag(herd.among_pups))
    most = -np.sort(-kinship, axis=1)[:, :count].sum(axis=1)
    paid = model.add_variables(
        len(units), cost=herd.pup_years**2, high=np.maximum(most, TOLERANCE), whole=False
    )
    start = model.add_rows(len(units), low=-most)
    rows = start + np.arange(len(units))
    model.put(rows, paid, 1.0)
    model.put(rows, units, -most)
    at, other = np.nonzero(kinship)
    model.put(start + at, units[other], -kinship[at, other])


def _partners(model: LinearModel, units: Index, herd: BreedingHerd, limit: float) -> None:
    """Each kept pup has a partner within the limit: a breeder, or another kept pup."""
    for at, sex in enumerate(herd.sexes):
        wanted = {"F": {"M"}, "M": {"F"}}.get(sex, {"F", "M", "U"})
        here = _within(herd.with_breeders[at], herd.breeder_sexes, wanted, limit)
        if here.any():
            continue
        others = _within(herd.among_pups[at], herd.sexes, wanted, limit)
        others[at] = False
        row = model.add_rows(high=0.0)
        model.put(row, units[[at]], 1.0)
        model.put(row, units[others], -1.0)


def _within(kinship: Floats, sexes: Sequence[str], wanted: set[str], limit: float) -> Bools:
    fits = np.array([sex in wanted for sex in sexes], dtype=bool)
    return fits & (kinship <= limit + TOLERANCE)


def _sibs(model: LinearModel, units: Index, herd: BreedingHerd) -> None:
    """Of full sibs that are alike in all, the first one is kept first."""
    last: dict[tuple[str, str, float], int] = {}
    for at, family in enumerate(herd.family):
        key = (family, herd.sexes[at], float(herd.prices[at]))
        before = last.get(key)
        if before is not None and _alike(herd, before, at):
            row = model.add_rows(high=0.0)
            model.put(row, units[[at]], 1.0)
            model.put(row, units[[before]], -1.0)
        last[key] = at


def _alike(herd: BreedingHerd, one: int, other: int) -> bool:
    rest = np.delete(np.arange(len(herd.sexes)), [one, other])
    return bool(
        np.abs(herd.with_breeders[one] - herd.with_breeders[other]).max(initial=0.0) <= TOLERANCE
        and np.abs(herd.among_pups[one, rest] - herd.among_pups[other, rest]).max(initial=0.0)
        <= TOLERANCE
        and abs(herd.among_pups[one, one] - herd.among_pups[other, other]) <= TOLERANCE
    )


def _nearest(herd: BreedingHerd) -> Floats:
    """The least kinship of each pup with a breeder of the other sex: F of the best young to come."""
    found = np.ones(len(herd.sexes))
    for at, sex in enumerate(herd.sexes):
        wanted = {"F": {"M"}, "M": {"F"}}.get(sex, {"F", "M"})
        fits = _within(herd.with_breeders[at], herd.breeder_sexes, wanted, 1.0)
        if fits.any():
            found[at] = herd.with_breeders[at][fits].min()
    return found


def _shared(
    options: Sequence[Sequence[Way]], slots: int, cost_max: float
) -> tuple[tuple[int, ...], ...]:
    """Share the slots among the species: as many as can be filled, then the least sum."""
    ways: list[tuple[float, float, int, tuple[tuple[int, ...], ...]]] = [(0.0, 0.0, 0, ())]
    for found in options:
        more = [
            (total + kinship, cost + price, used + len(chosen), (*sets, chosen))
            for total, cost, used, sets in ways
            for kinship, price, chosen in found
            if used + len(chosen) <= slots and cost + price <= cost_max + TOLERANCE
        ]
        more.sort(key=lambda way: (way[0], way[1]))
        # Of the same number, what is dearer and more alike is dropped.
        ways = [
            way
            for at, way in enumerate(more)
            if not any(other[1] <= way[1] and other[2] == way[2] for other in more[:at])
        ]
    return min(ways, key=lambda way: (-way[2], way[0], way[1]))[3]
