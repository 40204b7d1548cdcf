"""Which pups to hold back as breeders of this house, and why; nothing is written."""

from dataclasses import dataclass
from datetime import date
from time import monotonic

import numpy as np
from sqlmodel import Session

from colony.acts.orders.stock import for_sale
from colony.notation.money import in_major, minor_digits
from colony.planning.holdbacks.keep import BreedingHerd, KeepRules, keep
from colony.planning.orders.wanted import price_of
from colony.planning.pups.gates import PupFacts
from colony.store.lookup import find_species
from colony.store.readers.animals.herd import HerdRow
from colony.store.readers.animals.lives import read_lives
from colony.store.readers.orders.details import read_prices
from colony.store.readers.pedigree import Lineage, read_lineage
from colony.store.readers.pups.growing import read_pups
from colony.store.settings import read_settings

SECONDS = 30.0
LAST_AGE_YEARS = 14
"""Until about this age a ray breeds; common practice, no source."""

PUP_YEARS = 10.0
"""The years that a pup will breed for; common practice, no source."""

YEAR_DAYS = 365.25


@dataclass(frozen=True)
class KeepPup:
    """A pup to keep, and why."""

    tag: str
    species: str
    sex: str
    why: str
    forgone: int | float | None


@dataclass(frozen=True)
class MeanKinships:
    """Mean kinship of those here now, of the herd to come with the kept, and without any pup."""

    now: float
    kept: float
    without: float


@dataclass(frozen=True)
class KeepPlan:
    """Whom to keep; the mean kinships are the averages over the species, each counted once."""

    keep: list[KeepPup]
    mean_kinship: MeanKinships
    proven: bool


@dataclass(frozen=True)
class _Species:
    name: str
    pups: tuple[PupFacts, ...]
    breeders: tuple[HerdRow, ...]
    herd: BreedingHerd
    now: float


def plan_keeping(
    session: Session,
    *,
    slots: int,
    species: str | None = None,
    cost_max: float | None = None,
    seconds: float = SECONDS,
    today: date,
) -> KeepPlan:
    """Choose so many growing pups to become breeders; those kept back already count as such.

    Parameters
    ----------
    cost_max
        The most that may be forgone in all, by the price list, in the unit that is spoken of.

    Raises
    ------
    NoSuchSpecies
    """
    wanted = find_species(session, species).name if species else None
    settings, lineage = read_settings(session), read_lineage(session)
    kinds = _kinds(session, lineage, wanted, today)
    unit = 10 ** minor_digits(settings.currency)
    rules = KeepRules(settings.kinship_limit, np.inf if cost_max is None else cost_max * unit)
    found = keep([kind.herd for kind in kinds], slots, rules, seconds=seconds, clock=monotonic)
    chosen = [
        KeepPup(
            kind.pups[at].tag,
            kind.name,
            kind.pups[at].sex,
            _why(lineage, kind, at),
            in_major(round(kind.herd.prices[at]), settings.currency)
            if kind.herd.prices[at]
            else None,
        )
        for kind, places in zip(kinds, found.chosen, strict=True)
        for at in places
    ]
    kept = [
        kind.herd.mean_kinship(places) for kind, places in zip(kinds, found.chosen, strict=True)
    ]
    means = MeanKinships(
        _mean([kind.now for kind in kinds]),
        _mean(kept),
        _mean([kind.herd.mean_kinship() for kind in kinds]),
    )
    return KeepPlan(chosen, means, found.proven)


def _kinds(session: Session, lineage: Lineage, wanted: str | None, today: date) -> list[_Species]:
    """Each species that has both breeders and pups that may be kept."""
    lives, prices = read_lives(session), read_prices(session)
    growing = {pup.tag: pup for pup in read_pups(session, lives, today)}
    here = [row for row in lineage.herd.rows if row.status == "present" and row.species]
    found = []
    for name in sorted({row.species or "" for row in here}):
        if wanted not in {None, name}:
            continue
        breeders = tuple(
            row
            for row in here
            if row.species == name
            and not row.breeding_ban
            and (row.tag not in growing or row.held_back)
        )
        free = [
            row
            for row in here
            if row.species == name
            and row.tag in growing
            and not row.breeding_ban
            and not (row.held_back or growing[row.tag].reserved or growing[row.tag].held)
        ]
        if not breeders or not free:
            continue
        pups = tuple(growing[row.tag] for row in free)
        ids, theirs = [row.id for row in free], [row.id for row in breeders]
        herd = BreedingHerd(
            lineage.kinship(theirs, theirs),
            lineage.kinship(ids, theirs),
            lineage.kinship(ids, ids),
            np.array([_years(row, today) for row in breeders]),
            PUP_YEARS,
            [row.sex for row in free],
            [row.sex for row in breeders],
            np.array([float(price_of(for_sale(pup), prices, today) or 0) for pup in pups]),
            [pup.litter for pup in pups],
        )
        all_ids = [row.id for row in here if row.species == name]
        now = float(lineage.kinship(all_ids, all_ids).mean())
        found.append(_Species(name, pups, breeders, herd, now))
    return found


def _years(row: HerdRow, today: date) -> float:
    """The years in which an animal may still breed; of one of unknown age, half of a pup's."""
    if row.birthday is None:
        return PUP_YEARS / 2
    age = (today - row.birthday.first).days / YEAR_DAYS
    return min(max(LAST_AGE_YEARS - age, 0.0), PUP_YEARS)


def _why(lineage: Lineage, kind: _Species, at: int) -> str:
    """How related a pup is to the breeders beside the average, and whose genes it alone has."""
    herd = kind.herd
    years = herd.years / herd.years.sum() if herd.years.sum() else herd.years
    with_breeders = herd.with_breeders @ years
    own, average = float(with_breeders[at]), float(with_breeders.mean())
    words = [f"mean kinship {own:.4f} with the breeders; the pups have {average:.4f}"]
    alone = _only_young_of(lineage, kind, at)
    if alone:
        words.append(f"no breeder is a child of {' or '.join(alone)}")
    return "; ".join(words)


def _only_young_of(lineage: Lineage, kind: _Species, at: int) -> list[str]:
    """The parents of a pup of whom no breeder here is a child."""
    parents = lineage.parents
    by_tag = {row.tag: row for row in lineage.herd.rows}

    def of(row: HerdRow) -> set[int]:
        dam = parents.dam_id(row)
        sires = [sire for sire, _ in parents.sires(row) if sire is not None]
        return {*sires, *([dam] if dam is not None else [])}

    bred = {parent for row in kind.breeders for parent in of(row)}
    mine = of(by_tag[kind.pups[at].tag])
    return sorted(filter(None, (parents.tag(parent) for parent in mine - bred)))


def _mean(values: list[float]) -> float:
    return float(np.mean(values)) if values else 0.0
