"""Models solved by HiGHS."""

import time
from itertools import product

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from pairing_plans import plan_of
from plain_colonies import stock

from colony.planning.solver.highs import assign, relax, solve
from colony.planning.solver.model import LinearModel


def test_the_solver_prints_nothing(capfd: pytest.CaptureFixture[str]) -> None:
    """A JSON document on stdout stays one: no word of the solver gets out."""
    plan_of(stock(24, 10, seed=3))
    assert capfd.readouterr() == ("", "")


def knapsack(weights: list[int], values: list[int], most: int) -> LinearModel:
    """Choose things of the greatest value that weigh no more than so much."""
    model = LinearModel()
    things = model.add_variables(len(values), cost=-np.array(values, dtype=float))
    model.put(model.add_rows(high=float(most)), things, np.array(weights, dtype=float))
    return model


@settings(max_examples=40, deadline=None)
@given(
    st.lists(st.tuples(st.integers(1, 9), st.integers(1, 9)), min_size=1, max_size=6),
    st.integers(0, 20),
)
def test_whole_answers_are_those_of_brute_force(things: list[tuple[int, int]], most: int) -> None:
    """Of all ways to choose, the answer has the least cost; shares allowed bound it from below."""
    weights, values = ([thing[n] for thing in things] for n in (0, 1))
    ways = product((0, 1), repeat=len(things))
    best = max(
        sum(v * t for v, t in zip(values, way, strict=True))
        for way in ways
        if sum(w * t for w, t in zip(weights, way, strict=True)) <= most
    )
    model = knapsack(weights, values, most)
    found, bound = solve(model, seconds=10, nodes=1000), relax(model, seconds=10)
    assert found.proved
    assert found.values is not None
    assert model.costs @ found.values == pytest.approx(-best)
    assert found.bound == pytest.approx(-best)
    assert bound is not None
    assert bound.cost <= -best + 1e-9


def test_a_model_without_an_answer_is_impossible() -> None:
    """Two yes/no unknowns cannot add up to three: that is proved, with shares and without."""
    model = LinearModel()
    model.put(model.add_rows(low=3.0), model.add_variables(2), 1.0)
    found = solve(model, seconds=10, nodes=100)
    assert (found.values, found.impossible, found.proved) == (None, True, False)
    assert found.chosen(np.arange(2)) is None
    assert relax(model, seconds=10) is None


def test_the_duals_are_the_prices_of_the_rows() -> None:
    """One more unit of weight is worth the value of the best thing that is shared: 6 / 4."""
    bound = relax(knapsack([2, 4], [5, 6], 4), seconds=10)
    assert bound is not None
    assert bound.cost == pytest.approx(-8)
    assert bound.duals == pytest.approx(np.array([-1.5]))


def test_each_row_has_a_column_of_its_own_at_the_least_cost() -> None:
    """Of the six ways, the cheapest; a row with no column left is a mistake."""
    assert assign(np.array([[1.0, 2.0, 9.0], [1.0, 5.0, 9.0]])).tolist() == [1, 0]
    with pytest.raises(ValueError, match="infeasible"):
        assign(np.array([[1.0, np.inf], [1.0, np.inf]]))


def test_a_solver_that_is_stopped_has_no_answer() -> None:
    """A knapsack of 400 things and 60 limits that would take a minute: stopped at once."""
    chance = np.random.default_rng(0)
    model = LinearModel()
    things = model.add_variables(400, cost=-chance.integers(1, 100, 400).astype(float))
    weights = chance.integers(1, 100, (60, 400)).astype(float)
    row = model.add_rows(60, high=weights.sum(axis=1) / 3)
    for limit in range(60):
        model.put(row + limit, things, weights[limit])
    asked = iter([False, False, *([True] * 100)])
    began = time.monotonic()
    answer = solve(model, seconds=3, nodes=10_000_000, stopped=lambda: next(asked))
    assert time.monotonic() - began < 2
    assert answer.values is None
    assert answer.bound == -np.inf
    assert not answer.impossible
