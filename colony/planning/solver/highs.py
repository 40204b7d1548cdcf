"""Models solved by HiGHS, through scipy: the only file of the planner that loads scipy.

Huangfu & Hall 2018, Parallelizing the dual revised simplex method, Math. Program. Comput.
10:119-142.
"""

from dataclasses import dataclass

import numpy as np
from scipy.optimize import Bounds, LinearConstraint, linear_sum_assignment, linprog, milp
from scipy.sparse import csr_array, vstack

from colony.planning.pairings.request import Bools, Floats, Index
from colony.planning.pairings.search.model import Model

CHOSEN = 0.5
"""An unknown above this is a yes: solvers answer in floating point."""

IMPOSSIBLE = 2
"""HiGHS's word, through scipy, for a model proved to have no solution."""

SOLVED = 0
"""HiGHS's word, through scipy, for a model solved as closely as was asked."""


@dataclass(frozen=True, eq=False)
class Relaxed:
    """The model's answer with shares of pairs allowed: a bound on every plan."""

    cost: float
    shares: Floats
    curve: float
    duals: Floats


@dataclass(frozen=True, eq=False)
class Whole:
    """The model's answer in whole pairs.

    `chosen` are places among the model's pairs; None if nothing was found. `bound` is the
    proved least cost; `stopped` says that a limit was reached, `nodes` the work done.
    """

    chosen: Index | None
    bound: float
    stopped: bool
    impossible: bool
    nodes: int


def relax(model: Model, seconds: float) -> Relaxed | None:
    """Solve a model with shares of pairs allowed; None if it has no solution in time."""
    matrix, low, high = _matrix(model)
    same = low == high
    upper, lower = ~same & np.isfinite(high), ~same & np.isfinite(low)
    solved = linprog(  # type: ignore[call-overload] # its types do not know sparse arrays
        model.costs,
        A_eq=matrix[same],
        b_eq=low[same],
        A_ub=_stack(matrix, upper, lower),
        b_ub=np.concatenate([high[upper], -low[lower]]),
        bounds=np.column_stack([model.low, model.high]),
        method="highs",
        options={"time_limit": seconds},
    )
    if solved.status != SOLVED:
        return None
    duals = np.zeros(len(low))
    duals[same] = solved.eqlin.marginals
    duals[upper] += solved.ineqlin.marginals[: upper.sum()]
    duals[lower] -= solved.ineqlin.marginals[upper.sum() :]
    shares = np.asarray(solved.x[: model.slots])
    return Relaxed(float(solved.fun), shares, float(solved.x[model.curve]), duals)


def solve(model: Model, seconds: float, nodes: int, close: float = 0.0) -> Whole:
    """Solve a model in whole pairs to a relative gap, within a time and a number of nodes."""
    matrix, low, high = _matrix(model)
    solved = milp(
        model.costs,
        integrality=model.whole.astype(np.uint8),
        bounds=Bounds(model.low, model.high),
        constraints=LinearConstraint(matrix, low, high),
        options={"time_limit": seconds, "node_limit": nodes, "mip_rel_gap": close},
    )
    x, bound = solved.x, solved.mip_dual_bound
    return Whole(
        chosen=None if x is None else np.flatnonzero(x[: model.slots] > CHOSEN),
        bound=-np.inf if bound is None or np.isnan(bound) else float(bound),
        stopped=solved.status not in {SOLVED, IMPOSSIBLE},
        impossible=solved.status == IMPOSSIBLE,
        nodes=int(solved.mip_node_count or 0),
    )


def assign(costs: Floats) -> Index:
    """Give each row a column of its own, at the least cost; shape (rows, columns), rows <= columns.

    Raises
    ------
    ValueError
        Some row has no column of a finite cost left.
    """
    return np.asarray(linear_sum_assignment(costs)[1], dtype=np.intp)


def _matrix(model: Model) -> tuple[csr_array, Floats, Floats]:
    rows = model.rows
    triplets = (
        np.concatenate(rows.factor),
        (np.concatenate(rows.row), np.concatenate(rows.column)),
    )
    matrix = csr_array(triplets, shape=(len(rows.low), model.size))
    return matrix, np.array(rows.low), np.array(rows.high)


def _stack(matrix: csr_array, upper: Bools, lower: Bools) -> csr_array:
    return csr_array(vstack([matrix[upper], -matrix[lower]]))
