"""One pass down the pedigree."""

import numpy as np
import pytest
from hypothesis import given
from plain_pedigrees import enumerated, family, pedigrees, plain_kinship

from colony.pedigree.graph.graph import Pedigree
from colony.pedigree.kinship import sweep as sweep_module
from colony.pedigree.kinship.sweep import Mixing, sweep
from colony.refusals.pedigree import TooManyBreeders


@given(pedigrees())
def test_a_pass_finds_the_mean_over_all_worlds(pedigree: Pedigree) -> None:
    """Own kinship, that between parents and that among all kept: by brute force."""
    everybody = np.arange(len(pedigree))
    found, known = sweep(pedigree.nodes, keep=everybody), enumerated(pedigree).expected
    assert found.kept == pytest.approx(known)
    assert found.own[everybody] == pytest.approx(np.diag(known))
    assert found.between_parents[everybody] == pytest.approx(2 * np.diag(known) - 1)


@given(pedigrees())
def test_no_world_goes_beyond_the_extremes(pedigree: Pedigree) -> None:
    """Least and greatest are bounds for every pair."""
    everybody = np.arange(len(pedigree))
    known = enumerated(pedigree)
    least = sweep(pedigree.nodes, keep=everybody, mixing=Mixing.LEAST).kept
    greatest = sweep(pedigree.nodes, keep=everybody, mixing=Mixing.GREATEST).kept
    assert (least <= known.least + 1e-12).all()
    assert (greatest >= known.greatest - 1e-12).all()


def test_generations_of_full_sibs_follow_the_published_series() -> None:
    """F of the pups of full sibs is 1/4, 3/8, 1/2, 19/32.

    Wright 1921, Systems of mating II: the effects of inbreeding on the genetic composition of a
    population, Genetics 6:124-143.
    """
    line = {}
    for at in range(1, 6):
        for sex in "FM":
            line[f"{sex}{at}"] = (f"F{at - 1}", f"M{at - 1}")
    pedigree = family(line)
    of = dict(zip(pedigree.tags, sweep(pedigree.nodes).between_parents.tolist(), strict=True))
    assert [of[f"F{at}"] for at in range(1, 6)] == [0, 1 / 4, 3 / 8, 1 / 2, 19 / 32]
    assert np.diag(plain_kinship(pedigree)) == pytest.approx(sweep(pedigree.nodes).own)


def test_more_breeders_at_once_than_the_table_holds_are_refused(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """By their number and the room there is, before the memory is asked for."""
    monkeypatch.setattr(sweep_module, "MOST_IN_TABLE", 1)
    with pytest.raises(TooManyBreeders):
        sweep(family({"P": ("D", "S"), "Q": ("D", "S")}).nodes)
