"""What a solver says of a linear model."""

from dataclasses import dataclass

import numpy as np

from colony.planning.arrays import Floats, Index

CHOSEN = 0.5
"""A yes/no unknown above this is a yes: solvers answer in floating point."""


@dataclass(frozen=True, eq=False)
class RelaxedSolution:
    """The answer with shares of whole unknowns allowed: its cost bounds every whole answer.

    `duals` are the prices of the rows.
    """

    cost: float
    values: Floats
    duals: Floats


@dataclass(frozen=True, eq=False)
class WholeSolution:
    """The answer in whole numbers; `values` is None if nothing was found.

    `bound` is the proved least cost; `proved` says that the answer is as close to it as was
    asked, `impossible` that it is proved that there is none; `nodes` is the work done.
    """

    values: Floats | None
    bound: float
    proved: bool
    impossible: bool
    nodes: int

    def chosen(self, variables: Index) -> Index | None:
        """Places, among these yes/no unknowns, of those that are a yes; None without an answer."""
        return None if self.values is None else np.flatnonzero(self.values[variables] > CHOSEN)
