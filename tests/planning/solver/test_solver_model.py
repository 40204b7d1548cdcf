"""The one builder of linear models: blocks of unknowns and of rows, put together in order."""

import numpy as np
import pytest

from colony.planning.solver.model import LinearModel


def test_blocks_stand_in_the_order_in_which_they_were_added() -> None:
    """Each block is numbered on from the last one, with its own costs, bounds and wholeness."""
    model = LinearModel()
    first = model.add_variables(2, cost=3.0)
    second = model.add_variables(1, cost=np.array([5.0]), low=-1.0, high=np.inf, whole=False)
    assert (first.tolist(), second.tolist(), model.variables) == ([0, 1], [2], 3)
    assert model.costs.tolist() == [3, 3, 5]
    assert [bound.tolist() for bound in model.bounds] == [[0, 0, -1], [1, 1, np.inf]]
    assert model.whole.tolist() == [True, True, False]


def test_rows_are_triplets_with_bounds() -> None:
    """A row without a bound is free on that side; a factor counts for every unknown given."""
    model = LinearModel()
    pair = model.add_variables(2)
    total = model.add_rows(low=1.0)
    each = model.add_rows(2, high=np.array([4.0, 5.0]))
    model.put(total, pair, 1.0)
    model.put(each + np.arange(2), pair, np.array([2.0, 3.0]))
    assert (total, each, model.rows) == (0, 1, 3)
    low, high = model.row_bounds
    assert (low.tolist(), high.tolist()) == ([1, -np.inf, -np.inf], [np.inf, 4, 5])
    row, variable, factor = model.terms
    assert (row.tolist(), variable.tolist(), factor.tolist()) == (
        [0, 0, 1, 2],
        [0, 1, 0, 1],
        [1, 1, 2, 3],
    )


def test_an_empty_model_and_an_empty_block_are_models() -> None:
    """No unknown, no row and no term are arrays of none."""
    model = LinearModel()
    assert model.add_variables(0, cost=np.zeros(1)).tolist() == []
    assert (len(model.costs), len(model.whole), len(model.row_bounds[0])) == (0, 0, 0)
    assert [len(part) for part in model.terms] == [0, 0, 0]


def test_a_cost_of_another_shape_is_a_mistake() -> None:
    """Two costs for three unknowns are refused where they are given, not by the solver."""
    with pytest.raises(ValueError, match="shape"):
        LinearModel().add_variables(3, cost=np.zeros(2))
