"""What becomes of a colony under a plan, by simulation."""

import numpy as np
import pytest
from plain_colonies import TODAY, colony_kinship, stock

from colony.planning.pairings.future import Future, FutureDraw, futures, pups_kinship
from colony.planning.pairings.planner import plan_pairings
from colony.planning.pairings.request import PairingRequest, Stock


def ahead(colony: Stock, draw: FutureDraw, **request: int) -> dict[str, Future]:
    """Plan a colony and look ahead, by way of pairing."""
    asked = PairingRequest(**request)  # type: ignore[arg-type] # whole numbers only
    pairs = [(p.dam, p.sire) for p in plan_pairings(colony, asked, today=TODAY).pairs]
    return {f.way: f for f in futures(colony, asked, pairs, today=TODAY, draw=draw)}


def test_one_pair_and_its_pups_follow_the_table_of_full_sib_mating() -> None:
    """Mean F of generations 1 to 5 from one unrelated pair: 0, 0.25, 0.375, 0.5, 0.59375.

    Falconer & Mackay, Introduction to Quantitative Genetics, table of regular inbreeding.
    """
    unrelated = Stock(stock(1, 1).animals, np.eye(2) / 2)
    found = ahead(unrelated, FutureDraw(generations=5, pups=2, repeats=2))
    for way in found.values():
        inbreeding = [one.mean_inbreeding for one in way.ahead]
        assert inbreeding == pytest.approx([0, 0.25, 0.375, 0.5, 0.59375])


def test_kinship_of_pups_is_that_of_the_tabular_method() -> None:
    """Pups of known parents have the kinship that a whole pedigree's table gives them."""
    parents = colony_kinship(5, seed=3)
    rows = np.array([[0, 3], [0, 3], [1, 4], [2, 3]])
    table = np.zeros((9, 9))
    table[:5, :5] = parents
    for pup, (dam, sire) in enumerate(rows.tolist(), start=5):
        table[pup, :pup] = table[:pup, pup] = (table[dam, :pup] + table[sire, :pup]) / 2
        table[pup, pup] = (1 + table[dam, sire]) / 2
    np.testing.assert_allclose(pups_kinship(parents, rows), table[5:, 5:], atol=1e-15)


def test_the_first_generation_is_what_the_plan_foretells() -> None:
    """With very many pups a litter their mean kinship nears that of the next generation."""
    colony = stock(6, 3, seed=1)
    plan = plan_pairings(colony, PairingRequest(), today=TODAY)
    pairs = [(pair.dam, pair.sire) for pair in plan.pairs]
    found = futures(
        colony,
        PairingRequest(),
        pairs,
        today=TODAY,
        draw=FutureDraw(generations=1, pups=60, repeats=1),
    )
    (first,) = found[0].ahead
    assert first.mean_kinship == pytest.approx(plan.next_mean_kinship, abs=1e-3)
    assert first.mean_inbreeding == pytest.approx(plan.mean_expected_inbreeding)
    assert first.gene_diversity == pytest.approx(1 - first.mean_kinship)


def test_chance_loses_more_than_the_plan() -> None:
    """After three generations random pairing has the higher mean kinship and inbreeding."""
    found = ahead(stock(12, 6, seed=5), FutureDraw(repeats=6), most_females=3)
    plan, chance = found["plan"].ahead[2], found["random"].ahead[2]
    assert plan.mean_kinship < chance.mean_kinship
    assert plan.mean_inbreeding < chance.mean_inbreeding
    assert chance.standard_error > 0


def test_the_same_seed_draws_the_same_future() -> None:
    """A future can be drawn again, and another seed draws another."""
    colony = stock(6, 3, seed=2)
    one, again, other = (ahead(colony, FutureDraw(repeats=2, seed=seed)) for seed in (7, 7, 8))
    assert one == again
    assert one != other


def test_no_pairs_have_no_future() -> None:
    """An empty plan is followed nowhere."""
    assert futures(stock(2, 0), PairingRequest(), [], today=TODAY) == ()
