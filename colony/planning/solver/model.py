"""A mixed-integer linear model, built block by block: the one way to write one down.

Minimise ``costs @ x`` over unknowns x with ``low <= x <= high``, some of them whole numbers,
and rows ``low <= A @ x <= high``. `highs` solves it.
"""

import numpy as np

from colony.planning.arrays import Bools, Floats, Index


class LinearModel:
    """Unknowns with their costs and bounds, and rows as triplets of a sparse matrix."""

    def __init__(self) -> None:
        self.variables = 0
        self.rows = 0
        self._variables: list[tuple[Floats, Floats, Floats, Bools]] = []
        self._bounds: list[tuple[Floats, Floats]] = []
        self._terms: list[tuple[Index, Index, Floats]] = []

    def add_variables(
        self,
        count: int,
        *,
        cost: float | Floats = 0.0,
        low: float | Floats = 0.0,
        high: float | Floats = 1.0,
        whole: bool = True,
    ) -> Index:
        """Add a block of unknowns and return their numbers, shape (count,).

        Raises
        ------
        ValueError
            A cost or bound is of another shape.
        """
        shape = (count,)
        floats = (
            np.broadcast_to(np.asarray(v, dtype=np.float64), shape) for v in (cost, low, high)
        )
        costs, lows, highs = floats
        self._variables.append((costs, lows, highs, np.full(count, whole)))
        numbers = np.arange(self.variables, self.variables + count)
        self.variables += count
        return numbers

    def add_rows(
        self, count: int = 1, *, low: float | Floats = -np.inf, high: float | Floats = np.inf
    ) -> int:
        """Add a block of rows with their bounds and return the number of the first."""
        lows, highs = (
            np.broadcast_to(np.asarray(v, dtype=np.float64), (count,)) for v in (low, high)
        )
        self._bounds.append((lows, highs))
        first, self.rows = self.rows, self.rows + count
        return first

    def put(self, row: int | Index, variable: Index, factor: float | Floats) -> None:
        """Put unknowns with their factors into rows; the same pair twice adds up."""
        shape = variable.shape
        self._terms.append(
            (
                np.broadcast_to(np.asarray(row, dtype=np.intp), shape),
                variable,
                np.broadcast_to(np.asarray(factor, dtype=np.float64), shape),
            )
        )

    @property
    def costs(self) -> Floats:
        """What each unknown costs."""
        return _joined([costs for costs, _, _, _ in self._variables])

    @property
    def bounds(self) -> tuple[Floats, Floats]:
        """The least and the greatest of each unknown."""
        return _joined([v[1] for v in self._variables]), _joined([v[2] for v in self._variables])

    @property
    def whole(self) -> Bools:
        """Which unknowns are whole numbers."""
        return np.concatenate([np.zeros(0, dtype=bool), *(v[3] for v in self._variables)])

    @property
    def row_bounds(self) -> tuple[Floats, Floats]:
        """The least and the greatest of each row."""
        return _joined([low for low, _ in self._bounds]), _joined(
            [high for _, high in self._bounds]
        )

    @property
    def terms(self) -> tuple[Index, Index, Floats]:
        """Row, unknown and factor of every term of the rows."""
        none = np.zeros(0, dtype=np.intp)
        row = np.concatenate([none, *(term[0] for term in self._terms)])
        variable = np.concatenate([none, *(term[1] for term in self._terms)])
        return row, variable, _joined([term[2] for term in self._terms])


def _joined(blocks: list[Floats]) -> Floats:
    return np.concatenate([np.zeros(0), *blocks])
