"""Genes dropped down the pedigree by chance."""

from dataclasses import replace

import numpy as np
import pytest
from plain_pedigrees import at, family

from colony.pedigree.founders.alleles import drop_alleles
from colony.pedigree.founders.gene_drop import drop_genes
from colony.pedigree.graph.graph import Doubt, FounderKinship, Pedigree
from colony.pedigree.kinship.kinship import kinship, mean_kinship

DROPS = 20_000


def lacys_example() -> Pedigree:
    """Lacy 1989, Zoo Biol. 8:111-123: three founders and four descendants."""
    return family({"C": ("A", "B"), "D": ("A", "B"), "F": ("D", "E"), "G": ("D", "E")})


def test_each_founder_of_lacys_example_keeps_three_quarters() -> None:
    """Two pups each: an allele is lost with a chance of 1/4; f_g = 0.75 / 0.34375 (computed)."""
    pedigree = lacys_example()
    found = drop_genes(pedigree, at(pedigree, "C", "D", "F", "G"), drops=DROPS, seed=1)
    assert found.founders.tolist() == sorted(at(pedigree, "A", "B", "E").tolist())
    assert (np.abs(found.retained - 0.75) < 4 * found.retained_error).all()
    assert found.founder_genome_equivalents == pytest.approx(0.75 / 0.34375, rel=0.01)
    surviving = found.founder_genomes_surviving
    assert abs(surviving.value - 3 * 0.75) < 4 * surviving.standard_error


def test_gene_diversity_is_one_less_the_exact_mean_kinship() -> None:
    """Simulated and exact agree within four standard errors."""
    pedigree = lacys_example()
    living = at(pedigree, "C", "F", "G", "E")
    found = drop_genes(pedigree, living, drops=DROPS, seed=2).gene_diversity
    exact = 1 - mean_kinship(pedigree, living).mean()
    assert abs(found.value - exact) < 4 * found.standard_error
    assert found.standard_error < 0.003


@pytest.mark.parametrize("differ", [False, True])
def test_doubtful_sires_are_drawn_as_the_doubt_says(differ: bool) -> None:
    """ONE for a litter, or one for each pup: kinship among them by counting alleles."""
    pedigree = Pedigree(
        tags=("Dam", "One", "Two", "A", "B"),
        dam=np.array([-1, -1, -1, 0, 0]),
        sire=np.full(5, -1),
        sexes="FMMUU",
        doubts=(Doubt((3, 4), (1, 2, -1), (0.5, 0.2, 0.3), pups_may_differ=differ),),
    )
    assert_kinship_is_counted(pedigree)


@pytest.mark.parametrize(("related", "inbred"), [(0.25, 0.0), (0.1, 0.3), (0.4, 0.5), (0.04, 0.6)])
def test_related_founders_share_what_they_were_given(related: float, inbred: float) -> None:
    """Kinship and F of the founders themselves, and of their pups."""
    pedigree = family({"X": ("D", "S"), "Y": ("E", "S")})
    group = FounderKinship(tuple(at(pedigree, "D", "S").tolist()), related, inbred)
    assert_kinship_is_counted(replace(pedigree, founder_kinship=(group,)))


def test_the_seed_fixes_the_outcome() -> None:
    """The same seed, the same figures; another, others."""
    pedigree = lacys_example()
    living = at(pedigree, "C", "F")
    one, same, other = (drop_genes(pedigree, living, drops=50, seed=seed) for seed in (1, 1, 2))
    assert one.gene_diversity == same.gene_diversity != other.gene_diversity


def test_an_unknown_parent_is_a_founder_whose_genomes_count() -> None:
    """One pup of a known dam holds one allele of each parent; no f_g without all founders."""
    pedigree = family({"X": ("D", None)})
    found = drop_genes(pedigree, at(pedigree, "X"), drops=10, seed=1)
    assert found.founder_genomes_surviving.value == 1.0
    assert found.founder_genome_equivalents is None


def assert_kinship_is_counted(pedigree: Pedigree) -> None:
    """Hold the kinship of all pairs against alleles that are alike, within 4 standard errors."""
    n = len(pedigree)
    alleles = drop_alleles(pedigree.nodes, np.random.default_rng(5), DROPS)[:n]
    alike = alleles[:, None, :, None] == alleles[None, :, None, :]
    by_drop = alike.mean(axis=(2, 3))
    error = by_drop.std(axis=2, ddof=1) / np.sqrt(DROPS)
    exact = kinship(pedigree, np.arange(n), np.arange(n))
    assert (np.abs(by_drop.mean(axis=2) - exact) <= 4 * error + 1e-12).all()
