"""Linear models solved by HiGHS, through scipy: the only file of planning that loads scipy.

Huangfu & Hall 2018, Parallelizing the dual revised simplex method, Math. Program. Comput.
10:119-142.
"""

from collections.abc import Callable
from threading import Thread
from typing import Any

import numpy as np
from scipy.optimize import Bounds, LinearConstraint, linear_sum_assignment, linprog, milp
from scipy.sparse import csr_array, vstack

from colony.planning.arrays import Floats, Index
from colony.planning.solver.model import LinearModel
from colony.planning.solver.solution import RelaxedSolution, WholeSolution

IMPOSSIBLE = 2
"""HiGHS's word, through scipy, for a model proved to have no solution."""

LOOK_SECONDS = 0.1
"""How often a solver is asked whether somebody stopped it."""

SOLVED = 0
"""HiGHS's word, through scipy, for a model solved as closely as was asked."""


def relax(model: LinearModel, *, seconds: float) -> RelaxedSolution | None:
    """Solve a model with shares allowed; None if it has no solution in time."""
    matrix, (low, high) = _matrix(model), model.row_bounds
    same = low == high
    upper, lower = ~same & np.isfinite(high), ~same & np.isfinite(low)
    solved = linprog(  # type: ignore[call-overload] # its types do not know sparse arrays
        model.costs,
        A_eq=matrix[same],
        b_eq=low[same],
        A_ub=csr_array(vstack([matrix[upper], -matrix[lower]])),
        b_ub=np.concatenate([high[upper], -low[lower]]),
        bounds=np.column_stack(model.bounds),
        method="highs",
        options={"time_limit": seconds},
    )
    if solved.status != SOLVED:
        return None
    duals = np.zeros(len(low))
    duals[same] = solved.eqlin.marginals
    duals[upper] += solved.ineqlin.marginals[: upper.sum()]
    duals[lower] -= solved.ineqlin.marginals[upper.sum() :]
    return RelaxedSolution(float(solved.fun), np.asarray(solved.x), duals)


def solve(
    model: LinearModel,
    *,
    seconds: float,
    nodes: int,
    gap: float = 0.0,
    stopped: Callable[[], bool] | None = None,
) -> WholeSolution:
    """Solve a model in whole numbers to a relative gap, within a time and a number of nodes.

    With `stopped`, which is asked every tenth of a second, nobody waits for the end: once it
    says so, there is no answer.
    """

    def work() -> Any:  # noqa: ANN401 - scipy's own result
        return milp(
            model.costs,
            integrality=model.whole.astype(np.uint8),
            bounds=Bounds(*model.bounds),
            constraints=LinearConstraint(_matrix(model), *model.row_bounds),
            options={"time_limit": seconds, "node_limit": nodes, "mip_rel_gap": gap},
        )

    solved = work() if stopped is None else _unless(stopped, work)
    if solved is None:
        return WholeSolution(None, -np.inf, proved=False, impossible=False, nodes=0)
    bound = solved.mip_dual_bound
    return WholeSolution(
        values=None if solved.x is None else np.asarray(solved.x),
        bound=-np.inf if bound is None or np.isnan(bound) else float(bound),
        proved=solved.status == SOLVED,
        impossible=solved.status == IMPOSSIBLE,
        nodes=int(solved.mip_node_count or 0),
    )


def _unless(stopped: Callable[[], bool], work: Callable[[], Any]) -> Any:  # noqa: ANN401
    """Do work in a thread that is left behind when it is stopped: HiGHS cannot be called back."""
    done: list[Any] = []
    thread = Thread(target=lambda: done.append(work()), daemon=True)
    thread.start()
    while thread.is_alive() and not stopped():
        thread.join(LOOK_SECONDS)
    return done[0] if done else None


def assign(costs: Floats) -> Index:
    """Give each row a column of its own, at the least cost; shape (rows, columns), rows <= columns.

    Raises
    ------
    ValueError
        Some row has no column of a finite cost left.
    """
    return np.asarray(linear_sum_assignment(costs)[1], dtype=np.intp)


def _matrix(model: LinearModel) -> csr_array:
    row, variable, factor = model.terms
    return csr_array((factor, (row, variable)), shape=(model.rows, model.variables))
