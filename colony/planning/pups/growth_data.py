"""The widths of a colony as arrays, and the growth law's slopes at a guess.

A pup has three unknowns: its width on the day of its first width, and how far the logs of
its rate and of its asymptotic width stand from its species' prior.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from functools import cached_property

import numpy as np

from colony.planning.arrays import Floats, Index
from colony.planning.pups.growth import GrowthPrior, Width
from colony.planning.pups.growth_law import YEAR_DAYS, width_mm, width_slopes
from colony.planning.pups.growth_tree import Information

FLAT_MM = 500.0
"""Standard deviation of the prior of a first width: as good as none."""


@dataclass(frozen=True)
class Grower:
    """An animal whose growth is asked for, with its trusted widths (none is allowed).

    `litter` is any name its litter-mates share; an empty one stands alone.
    """

    tag: str
    species: str
    sex: str
    litter: str
    born: date | None
    widths: tuple[Width, ...]
    prior: GrowthPrior

    @cached_property
    def starts(self) -> tuple[Width, ...]:
        """Its widths by date; the species' birth width when it has none."""
        if self.widths or self.born is None:
            return tuple(sorted(self.widths, key=lambda w: w.day))
        return (Width(self.born, self.prior.birth_mm),)


@dataclass(frozen=True)
class Widths:
    """Widths of n animals, padded to m columns: years since the first, mm, and what counts.

    `error_scale` is the error of each width in units of the measuring error.
    """

    years: Floats
    width_mm: Floats
    counts: Floats
    log_rate: Floats
    log_asymptotic: Floats
    litter: Index
    colony_of_litter: Index


@dataclass(frozen=True)
class Guess:
    """Where the law is linearised: first width in mm (n,), and the two deviations (n, 2)."""

    first_mm: Floats
    deviation: Floats


@dataclass(frozen=True)
class Slopes:
    """The law at a guess: predicted mm (n, m) and its derivatives by the unknowns (n, m, 3)."""

    predicted_mm: Floats
    by_unknown: Floats


@dataclass(frozen=True)
class Given:
    """The first width, given the deviations: ``mean + slope @ deviation`` and its variance."""

    mean_mm: Floats
    slope: Floats
    variance: Floats


def packed(growers: Sequence[Grower], error_mm: float) -> Widths:
    """Lay out the widths of all growers; each must have at least one start.

    A birth width that stands in for a measured one counts by its own, larger error.
    """
    columns = max(len(g.starts) for g in growers)
    years, mm, counts = (np.zeros((len(growers), columns)) for _ in range(3))
    for row, grower in enumerate(growers):
        starts = grower.starts
        first = starts[0].day
        size = len(starts)
        years[row, :size] = [(w.day - first).days / YEAR_DAYS for w in starts]
        mm[row, :size] = [w.width_mm for w in starts]
        counts[row, :size] = (
            1.0 if grower.widths else (error_mm / grower.prior.birth_spread_mm) ** 2
        )
    litter, colony = _families(growers)
    return Widths(
        years,
        mm,
        counts,
        np.log([g.prior.rate_per_year for g in growers]),
        np.log([g.prior.asymptotic_mm for g in growers]),
        litter,
        colony,
    )


def _families(growers: Sequence[Grower]) -> tuple[Index, Index]:
    species = {name: n for n, name in enumerate(dict.fromkeys(g.species for g in growers))}
    litters: dict[tuple[str, str], int] = {}
    for g in growers:
        litters.setdefault(_litter_key(g), len(litters))
    litter = np.array([litters[_litter_key(g)] for g in growers], dtype=np.intp)
    return litter, np.array([species[key[0]] for key in litters], dtype=np.intp)


def _litter_key(grower: Grower) -> tuple[str, str]:
    return grower.species, grower.litter or f"alone:{grower.tag}"


def slopes(widths: Widths, guess: Guess) -> Slopes:
    """Evaluate the law and its derivatives at a guess."""
    rate = np.exp(widths.log_rate + guess.deviation[:, 0])[:, None]
    asymptotic = np.exp(widths.log_asymptotic + guess.deviation[:, 1])[:, None]
    first = guess.first_mm[:, None]
    at = first, rate, asymptotic - first, widths.years
    return Slopes(width_mm(*at), np.stack(width_slopes(*at), axis=-1))


def evidence_of_widths(
    widths: Widths, guess: Guess, at: Slopes, error_mm: float
) -> tuple[Information, Given]:
    """Reduce the widths to their evidence on the deviations, the first width integrated out."""
    weights = widths.counts / error_mm**2
    target = (
        widths.width_mm
        - at.predicted_mm
        + np.einsum("nmi,ni->nm", at.by_unknown, np.column_stack([guess.first_mm, guess.deviation]))
    )
    sloped = at.by_unknown * weights[:, :, None]
    precision = np.einsum("nmi,nmj->nij", sloped, at.by_unknown)
    weighted = np.einsum("nmi,nm->ni", sloped, target)
    precision[:, 0, 0] += FLAT_MM**-2
    weighted[:, 0] += widths.width_mm[:, 0] * FLAT_MM**-2
    alone, cross = precision[:, 0, 0], precision[:, 0, 1:]
    slope = -cross / alone[:, None]
    seen = Information(
        precision[:, 1:, 1:] + slope[:, :, None] * cross[:, None, :],
        weighted[:, 1:] + slope * weighted[:, :1],
    )
    return seen, Given(weighted[:, 0] / alone, slope, 1 / alone)
