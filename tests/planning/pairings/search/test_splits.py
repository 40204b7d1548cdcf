"""Splits of a kinship matrix: they bound whatever litters there are, and closely."""

import numpy as np
import pytest
from herds_alike import families, problem_of
from plain_colonies import colony_kinship, stock

from colony.planning.pairings.request import PairingRequest
from colony.planning.pairings.search.alike import kinds
from colony.planning.pairings.search.splits import Splitter, squares


@pytest.mark.parametrize("seed", range(10))
def test_no_plan_is_below_its_bound(seed: int) -> None:
    """Random whole litters, dams 5 and sires 5 of them: n' S n + D n^2 never exceeds n' K n."""
    chance = np.random.default_rng(seed)
    kinship = colony_kinship(14, seed)
    usual = chance.multinomial(5, np.full(8, 1 / 8)), chance.multinomial(5, np.full(6, 1 / 6))
    splitter = Splitter(kinship, 8, np.concatenate(usual).astype(float))
    for _ in range(5):
        point = np.concatenate([chance.dirichlet(np.ones(8)), chance.dirichlet(np.ones(6))]) * 5
        split = splitter.at(point)
        tangent = 2 * split.smooth @ point
        for _ in range(200):
            n = np.concatenate(
                [chance.multinomial(5, np.full(8, 1 / 8)), chance.multinomial(5, np.full(6, 1 / 6))]
            ).astype(float)
            below = float(tangent @ n - point @ split.smooth @ point + split.own @ n**2)
            assert below <= n @ kinship @ n + 1e-9


def test_a_herd_of_families_is_bounded_closely_between_whole_litters() -> None:
    """Half a litter of each of two unrelated animals is worth what one litter of one is."""
    splitter = Splitter(np.eye(4) / 2, 2, np.ones(4))
    point = np.array([0.5, 0.5, 0.5, 0.5])
    split = splitter.at(point)
    bound = float(point @ split.smooth @ point + split.own @ squares(point))
    assert bound == pytest.approx(1.0, abs=0.02)
    assert float(point @ np.eye(4) @ point) / 2 == 0.5


def test_more_steps_bring_the_bound_up() -> None:
    """Even shares of all: the best bound is n' K n itself, and four splits reach it."""
    of = kinds(problem_of(stock(40, 40, kinship=families()), PairingRequest(litters=20)))
    dams = of.dams
    n = np.where(np.arange(len(of.size)) < dams, of.size / of.size[:dams].sum(), 0.0)
    n = 20 * np.where(np.arange(len(of.size)) < dams, n, of.size / of.size[dams:].sum())
    splitter = Splitter(of.kinship, dams, np.round(n).astype(float))
    bounds = []
    for _ in range(4):
        split = splitter.at(n)
        bounds.append(float(n @ split.smooth @ n + split.own @ squares(n)))
    assert bounds[-1] >= bounds[0]
    assert bounds[-1] == pytest.approx(n @ of.kinship @ n, rel=1e-3)


def test_squares_are_exact_where_litters_are_whole() -> None:
    """And straight between: 2.5 lies between 4 and 9."""
    assert squares(np.array([0.0, 1.0, 2.5, 3.0])).tolist() == [0.0, 1.0, 6.5, 9.0]
