"""What the founders left in the living: contributions, effective numbers, gene diversity."""

from dataclasses import dataclass

import numpy as np

from colony.pedigree.doubt.doubts import UNKNOWN
from colony.pedigree.founders.ancestors import effective_ancestors
from colony.pedigree.graph.above import above
from colony.pedigree.graph.descent import traced_up
from colony.pedigree.graph.graph import Pedigree
from colony.pedigree.graph.nodes import FloatArray, IntArray, Nodes
from colony.pedigree.kinship.kinship import mean_kinship


@dataclass(frozen=True, eq=False)
class Contributions:
    """How much of the living each founder is.

    Attributes
    ----------
    founders
        Positions of the founders that left anything, (f,), the greatest part first.
    parts
        Part of the genes of the living that comes from each, (f,).
    unknown
        The part of each unknown parent of an animal with one known parent, (u,); each counts
        as a founder. Together with `parts` they sum to 1.
    """

    founders: IntArray
    parts: FloatArray
    unknown: FloatArray

    @property
    def effective_founders(self) -> float:
        """Founders that, contributing alike, would give the same: 1 / sum of squared parts.

        Founder equivalents of Lacy 1989, Analysis of founder representation in pedigrees, Zoo
        Biol. 8:111-123. Founders given a kinship of their own still count as one each.
        """
        return float(1 / (np.square(self.parts).sum() + np.square(self.unknown).sum()))


def contributions(pedigree: Pedigree, living: IntArray) -> Contributions:
    """Trace the genes of the living, (k,), up to the founders."""
    part = above(pedigree.nodes, living)
    nodes = part.nodes
    weights = np.bincount(part.place[living], minlength=len(nodes)) / len(living)
    traced = traced_up(nodes, weights)
    is_founder = np.isin(part.members, pedigree.founders)
    parts = traced[is_founder]
    largest = np.argsort(-parts, kind="stable")
    return Contributions(
        founders=part.members[is_founder][largest],
        parts=parts[largest],
        unknown=_unknown_parts(nodes, np.where(is_founder, 0.0, traced)),
    )


def _unknown_parts(nodes: Nodes, traced: FloatArray) -> FloatArray:
    """What each unknown parent gave, where the other is known or the sire is in doubt."""
    traced = np.where(np.isnan(nodes.given_own), traced, 0.0)
    parts = np.concatenate(
        (
            traced[nodes.first == UNKNOWN] * nodes.first_share[nodes.first == UNKNOWN],
            traced[nodes.second == UNKNOWN] * nodes.second_share[nodes.second == UNKNOWN],
        )
    )
    return parts[parts > 0]


@dataclass(frozen=True)
class Diversity:
    """What is left of the founders' genes in the living.

    Attributes
    ----------
    living, founders
        How many; unknown parents are founders too.
    effective_founders
        Lacy 1989; see `Contributions`.
    effective_ancestors, at_least
        Boichard et al. 1997; see `effective_ancestors`.
    mean_kinship
        Average over all pairs of the living, themselves included.
    gene_diversity
        1 - mean kinship (Lacy 1995): of the heterozygosity of unrelated founders.
    founder_genome_equivalents
        Founders without any loss that would hold that diversity: 1 / (2 mean kinship)
        (Lacy 1995; Caballero & Toro 2000, Genet. Res. 75:331-343).
    """

    living: int
    founders: int
    effective_founders: float
    effective_ancestors: float
    effective_ancestors_at_least: float
    mean_kinship: float
    gene_diversity: float
    founder_genome_equivalents: float


def diversity(pedigree: Pedigree, living: IntArray) -> Diversity:
    """Sum up the living, (k,), k at least 1.

    Lacy 1995, Clarification of genetic terms and their use in the management of captive
    populations, Zoo Biol. 14:565-577.
    """
    left = contributions(pedigree, living)
    ancestors = effective_ancestors(pedigree, living)
    average = float(mean_kinship(pedigree, living).mean())
    return Diversity(
        living=len(living),
        founders=len(left.founders) + len(left.unknown),
        effective_founders=left.effective_founders,
        effective_ancestors=ancestors.number,
        effective_ancestors_at_least=ancestors.at_least,
        mean_kinship=average,
        gene_diversity=1 - average,
        founder_genome_equivalents=1 / (2 * average),
    )
