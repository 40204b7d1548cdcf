"""The pedigree room beside reference libraries; skipped where they are not installed."""

import numpy as np
import pytest
from hypothesis import given, settings
from plain_pedigrees import pedigrees

from colony.pedigree.graph.graph import FloatArray, Pedigree
from colony.pedigree.kinship.inbreeding import inbreeding
from colony.pedigree.kinship.kinship import kinship

REASON = "reference library not installed (pip install colony[reference])"
CLOSE = 1e-12


def grown_pedigree(animals: int, seed: int) -> Pedigree:
    """Overlapping generations in shuffled record order, a tenth of the parents unknown."""
    chance = np.random.default_rng(seed)
    place = chance.permutation(animals)
    dam, sire = np.full(animals, -1), np.full(animals, -1)
    for pup in range(10, animals):
        near = np.arange(max(0, pup - 80), pup)
        dam[place[pup]] = place[chance.choice(near[near % 2 == 0])]
        sire[place[pup]] = place[chance.choice(near[near % 2 == 1])]
    for parent in (dam, sire):
        parent[chance.random(animals) < 0.1] = -1
    sexes = np.empty(animals, dtype="U1")
    sexes[place] = np.where(np.arange(animals) % 2 == 0, "F", "M")
    return Pedigree(tuple(map(str, range(animals))), dam, sire, "".join(sexes))


def sgkit_kinship(pedigree: Pedigree) -> FloatArray:
    """Kinship of all with all, diploid, half founders allowed."""
    stats = pytest.importorskip("sgkit.stats.pedigree", reason=REASON)
    parents = np.stack((pedigree.dam, pedigree.sire), axis=1)
    return np.asarray(stats.kinship_diploid(parents, allow_half_founders=True))


@pytest.mark.parametrize("seed", [1, 2])
def test_f_and_kinship_of_two_thousand_equal_the_reference(seed: int) -> None:
    """To 1e-12, record order shuffled, parents missing."""
    pedigree = grown_pedigree(2000, seed)
    reference = sgkit_kinship(pedigree)
    assert inbreeding(pedigree) == pytest.approx(2 * np.diag(reference) - 1, abs=CLOSE)
    some = np.random.default_rng(seed).permutation(2000)
    found = kinship(pedigree, some[:90], some[60:140])
    assert found == pytest.approx(reference[np.ix_(some[:90], some[60:140])], abs=CLOSE)


@settings(max_examples=40, deadline=None)
@given(pedigrees(most=30, most_doubts=0))
def test_random_pedigrees_equal_the_reference(pedigree: Pedigree) -> None:
    """Every shape that the strategy draws."""
    everybody = np.arange(len(pedigree))
    found = kinship(pedigree, everybody, everybody)
    assert found == pytest.approx(sgkit_kinship(pedigree), abs=CLOSE)


def test_kinship_is_the_chance_of_meeting_in_a_simulated_pedigree() -> None:
    """Genomes simulated on the fixed pedigree find common ancestry as often as kinship says.

    Kinship of two animals is the chance that a genome of one and a genome of the other meet
    within the pedigree; many independent loci, within four standard errors.
    """
    msprime = pytest.importorskip("msprime", reason=REASON)
    tskit = pytest.importorskip("tskit", reason=REASON)
    pedigree, loci = grown_pedigree(60, 7), 2000
    known = (pedigree.dam >= 0) == (pedigree.sire >= 0)
    pedigree = Pedigree(
        pedigree.tags,
        np.where(known, pedigree.dam, -1),
        np.where(known, pedigree.sire, -1),
        pedigree.sexes,
    )
    asked = np.argsort(pedigree.nodes.step)[-6:]
    last = int(pedigree.nodes.step.max())
    builder = msprime.PedigreeBuilder()
    order = pedigree.nodes.order.tolist()
    at: dict[int, int] = {}
    for one in order:
        parents = [at[int(p)] for p in (pedigree.dam[one], pedigree.sire[one]) if p >= 0]
        at[one] = builder.add_individual(
            time=last - pedigree.nodes.step[one], parents=parents or None, is_sample=one in asked
        )
    fixed = builder.finalise(1)
    met = np.zeros((loci, 6, 6))
    replicates = msprime.sim_ancestry(
        initial_state=fixed, model="fixed_pedigree", num_replicates=loci, random_seed=11
    )
    for locus, trees in enumerate(replicates):
        tree = trees.first()
        genomes = [trees.individual(at[int(one)]).nodes for one in asked]
        for one in range(6):
            for other in range(6):
                met[locus, one, other] = np.mean(
                    [
                        a == b or tree.mrca(a, b) != tskit.NULL
                        for a in genomes[one]
                        for b in genomes[other]
                    ]
                )
    error = met.std(axis=0, ddof=1) / np.sqrt(loci)
    assert (np.abs(met.mean(axis=0) - kinship(pedigree, asked, asked)) <= 4 * error + CLOSE).all()
