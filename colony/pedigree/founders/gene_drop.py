"""Gene dropping: founders' alleles sent down the pedigree many times, by the rules of chance.

MacCluer, VandeBerg, Read & Ryder 1986, Pedigree analysis by computer simulation, Zoo Biol.
5:147-160.
"""

from dataclasses import dataclass

import numpy as np

from colony.pedigree.founders.alleles import drop_alleles
from colony.pedigree.founders.founders import contributions
from colony.pedigree.graph.above import Above, above
from colony.pedigree.graph.graph import Pedigree
from colony.pedigree.graph.nodes import FloatArray, IntArray

_ALLELES_AT_ONCE = 1 << 23
"""Alleles that are held in memory together."""


@dataclass(frozen=True)
class Estimate:
    """A simulated figure with its standard error."""

    value: float
    standard_error: float


@dataclass(frozen=True, eq=False)
class GeneDrop:
    """What the drops left in the living.

    Attributes
    ----------
    founders
        Positions of the founders above the living, (f,).
    retained, retained_error
        Part of each founder's two alleles that is still there, (f,), and its standard error.
    gene_diversity
        Chance that two alleles drawn from the living are different by descent.
    founder_genomes_surviving
        Sum of what is retained over all founders, unknown parents included.
    founder_genome_equivalents
        1 / sum of p^2 / r over the known founders with parts p and retention r (Lacy 1989); None
        where a parent is unknown or founders are related, since then the sum is not complete.
    """

    founders: IntArray
    retained: FloatArray
    retained_error: FloatArray
    gene_diversity: Estimate
    founder_genomes_surviving: Estimate
    founder_genome_equivalents: float | None


def drop_genes(pedigree: Pedigree, living: IntArray, *, drops: int, seed: int) -> GeneDrop:
    """Drop alleles down to the living, (k,), `drops` times over; the seed fixes the outcome.

    A sire in doubt is drawn anew in each drop, ONE for a litter that has one.
    """
    part = above(pedigree.nodes, living)
    chance = np.random.default_rng(seed)
    founders = np.flatnonzero(np.isin(part.members, pedigree.founders))
    at_once = max(1, min(drops, _ALLELES_AT_ONCE // (2 * len(part.nodes))))
    counts = [min(at_once, drops - done) for done in range(0, drops, at_once)]
    seen = [_count(part, founders, part.place[living], chance, some) for some in counts]
    retained, kinds, diversity = (
        np.concatenate(parts, axis=-1) for parts in zip(*seen, strict=True)
    )
    mean = retained.mean(axis=1)
    return GeneDrop(
        founders=part.members[founders],
        retained=mean,
        retained_error=_standard_error(retained),
        gene_diversity=Estimate(float(diversity.mean()), float(_standard_error(diversity))),
        founder_genomes_surviving=Estimate(
            float(kinds.mean() / 2), float(_standard_error(kinds / 2))
        ),
        founder_genome_equivalents=_equivalents(pedigree, living, part.members[founders], mean),
    )


def _standard_error(drawn: FloatArray) -> FloatArray:
    return np.asarray(drawn.std(axis=-1, ddof=1) / np.sqrt(drawn.shape[-1]))


def _count(
    part: Above, founders: IntArray, living: IntArray, chance: np.random.Generator, drops: int
) -> tuple[FloatArray, FloatArray, FloatArray]:
    """By drop: what is retained of each founder, kinds of alleles left, and gene diversity."""
    alleles = drop_alleles(part.nodes, chance, drops)
    every = np.arange(drops)
    left = np.bincount(
        (alleles[living].astype(np.int64) * drops + every).ravel(),
        minlength=2 * len(part.nodes) * drops,
    ).reshape(-1, drops)
    retained = (left[alleles[founders], every] > 0).mean(axis=1)
    diversity = 1 - np.square(left / (2 * len(living))).sum(axis=0)
    return retained, np.asarray((left > 0).sum(axis=0), dtype=np.float64), diversity


def _equivalents(
    pedigree: Pedigree, living: IntArray, founders: IntArray, retained: FloatArray
) -> float | None:
    left = contributions(pedigree, living)
    if left.unknown.size or pedigree.founder_kinship:
        return None
    order = np.searchsorted(founders, left.founders)
    parts, kept = left.parts[retained[order] > 0], retained[order][retained[order] > 0]
    return float(1 / (np.square(parts) / kept).sum())
