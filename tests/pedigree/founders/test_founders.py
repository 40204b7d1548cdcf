"""What the founders left in the living."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from plain_pedigrees import at, family, pedigrees, worlds

from colony.pedigree.founders.founders import contributions, diversity
from colony.pedigree.graph.graph import FloatArray, FounderKinship, IntArray, Pedigree
from colony.pedigree.kinship.kinship import kinship

CLOSE = 1e-12


def lacys_example() -> tuple[Pedigree, IntArray]:
    """Lacy 1989, Zoo Biol. 8:111-123: three founders A, B and E; four descendants."""
    litters = {"C": ("A", "B"), "D": ("A", "B"), "F": ("D", "E"), "G": ("D", "E")}
    # A and D are sires in the paper; here every first parent is a dam, which changes nothing.
    pedigree = family(litters)
    return pedigree, at(pedigree, "C", "D", "F", "G")


def test_lacys_example_has_his_founder_equivalents() -> None:
    """Three founders that count as 2.91: A and B gave 3/8 each, E gave 1/4."""
    pedigree, living = lacys_example()
    found = contributions(pedigree, living)
    parts = dict(
        zip([pedigree.tags[founder] for founder in found.founders], found.parts, strict=True)
    )
    assert parts == pytest.approx({"A": 0.375, "B": 0.375, "E": 0.25}, abs=CLOSE)
    assert found.effective_founders == pytest.approx(32 / 11, abs=CLOSE)
    assert round(found.effective_founders, 2) == 2.91


def test_gene_diversity_and_genome_equivalents_follow_from_mean_kinship() -> None:
    """Lacy 1995: 1 - mean kinship, and 1 / (2 mean kinship), over all pairs of the living."""
    pedigree, living = lacys_example()
    average = kinship(pedigree, living, living).mean()
    found = diversity(pedigree, living)
    assert found.mean_kinship == pytest.approx(average, abs=CLOSE)
    assert found.gene_diversity == pytest.approx(1 - average, abs=CLOSE)
    assert found.founder_genome_equivalents == pytest.approx(0.5 / average, abs=CLOSE)
    assert (found.living, found.founders) == (4, 3)


def test_unrelated_founders_that_live_count_each() -> None:
    """Nothing is lost yet: all effective numbers are the head count."""
    pedigree = family(dict.fromkeys("ABCDE", (None, None)))
    found = diversity(pedigree, np.arange(5))
    for number in (
        found.effective_founders,
        found.effective_ancestors,
        found.founder_genome_equivalents,
    ):
        assert number == pytest.approx(5, abs=1e-9)


def test_an_unknown_parent_counts_as_a_founder() -> None:
    """One pup of a known dam: half hers, half a stranger's, two founders."""
    pedigree = family({"X": ("D", None)})
    found = contributions(pedigree, at(pedigree, "X"))
    assert (found.parts.tolist(), found.unknown.tolist()) == ([0.5], [0.5])
    assert found.effective_founders == pytest.approx(2, abs=CLOSE)


@settings(max_examples=60, deadline=None)
@given(pedigrees(most=10), st.data())
def test_contributions_are_the_mean_over_all_ways_to_settle_the_doubts(
    pedigree: Pedigree, data: st.DataObject
) -> None:
    """Each founder's part by the plain recursion; with the unknown parents they sum to 1."""
    everybody = st.sets(st.integers(0, len(pedigree) - 1), min_size=1)
    living = np.array(sorted(data.draw(everybody)))
    expected = sum(
        world.probability * plain_parts(world.pedigree, living)[: len(pedigree)]
        for world in worlds(pedigree)
    )
    found = contributions(pedigree, living)
    parts = np.zeros(len(pedigree))
    parts[found.founders] = found.parts
    founders = pedigree.founders
    assert parts[founders] == pytest.approx(np.asarray(expected)[founders], abs=CLOSE)
    assert parts.sum() + found.unknown.sum() == pytest.approx(1, abs=CLOSE)


def test_related_founders_hold_less_diversity() -> None:
    """Two founders of one shipment with kinship k: mean kinship (1/2 + k) / 2."""
    pair = family({"D": (None, None), "S": (None, None)})
    related = replace(pair, founder_kinship=(FounderKinship((0, 1), 0.2),))
    assert diversity(related, np.arange(2)).mean_kinship == pytest.approx(0.35, abs=CLOSE)
    assert contributions(related, np.arange(2)).unknown.size == 0


def plain_parts(pedigree: Pedigree, living: IntArray) -> FloatArray:
    """Part of the living that comes from each animal without parents, by the definition."""
    parts = np.zeros(len(pedigree))

    def trace(one: int, part: float) -> None:
        if pedigree.dam[one] < 0 and pedigree.sire[one] < 0:
            parts[one] += part
        for parent in (pedigree.dam[one], pedigree.sire[one]):
            if parent >= 0:
                trace(int(parent), part / 2)

    for one in living:
        trace(int(one), 1 / len(living))
    return parts
