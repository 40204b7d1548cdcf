"""The plan of kinds as unknowns and rows: what bounds every plan, and proves the best.

Unknowns, in this order: litters of each pair of kinds; of each kind; the first, second ...
litter of each member of a kind of several sires; the first, second ... litter of each kind;
and the mean kinship that all splits bound. Rows of a split: `splits`.
"""

from dataclasses import dataclass

import numpy as np

from colony.planning.arrays import Floats, Index
from colony.planning.pairings.search.descent import KindCosts
from colony.planning.pairings.search.splits import Split
from colony.planning.solver.model import LinearModel


@dataclass(frozen=True, eq=False)
class Cut:
    """A split, and the point at which its curved part is replaced by a tangent."""

    split: Split
    point: Floats


class KindModel:
    """One model of so many litters of kinds; costs are multiplied by `scale`."""

    def __init__(
        self,
        costs: KindCosts,
        quota_least: tuple[int, ...],
        cuts: list[Cut],
        *,
        scale: float,
        cheaper_than: float = np.inf,
    ) -> None:
        self.costs, self.kinds, self.scale = costs, costs.kinds, scale
        self.linear = LinearModel()
        self._unknowns()
        self._rows(quota_least)
        self.cut_rows = self.linear.rows
        for cut in cuts:
            self._lay(cut)
        if np.isfinite(cheaper_than):
            row = self.linear.add_rows(high=scale * cheaper_than)
            everything = np.arange(self.linear.variables)
            self.linear.put(row, everything, self.linear.costs)

    def _unknowns(self) -> None:
        kinds, litters = self.kinds, self.costs.litters
        dams, each = kinds.dams, self.scale * self.costs.each
        most = np.minimum(kinds.most, litters)
        self.pair = self.linear.add_variables(
            len(kinds.cost),
            cost=self.scale * kinds.cost / litters,
            low=kinds.required.astype(float),
            high=np.minimum(most[kinds.dam], most[dams + kinds.sire]).astype(float),
        )
        own = np.where(np.arange(len(most)) < dams, each * kinds.own, 0.0)
        self.n = self.linear.add_variables(
            len(most), cost=own, high=most.astype(float), whole=False
        )
        several = np.flatnonzero((kinds.own > 0) & (np.arange(len(most)) >= dams))
        self.member_of, rank = _ranks(several, kinds.most[several] // kinds.size[several])
        self.member = self.linear.add_variables(
            len(rank),
            cost=each * kinds.own[self.member_of] * (2 * rank + 1),
            high=kinds.size[self.member_of].astype(float),
            whole=False,
        )
        many = np.flatnonzero(most > 1)
        self.slot_of, self.rank = _ranks(many, most[many])
        self.slot = self.linear.add_variables(len(self.rank))
        self.one = np.flatnonzero(most <= 1)
        self.curve = self.linear.add_variables(1, cost=1.0, high=np.inf, whole=False)

    def _rows(self, quota_least: tuple[int, ...]) -> None:
        kinds, linear = self.kinds, self.linear
        row = linear.add_rows(len(self.n), low=0.0, high=0.0)
        linear.put(row + kinds.dam, self.pair, 1.0)
        linear.put(row + kinds.dams + kinds.sire, self.pair, 1.0)
        linear.put(row + np.arange(len(self.n)), self.n, -1.0)
        for kind, parts in ((self.member_of, self.member), (self.slot_of, self.slot)):
            which, number = np.unique(kind, return_inverse=True)
            row = linear.add_rows(len(which), low=0.0, high=0.0)
            linear.put(row + np.arange(len(which)), self.n[which], -1.0)
            linear.put(row + number, parts, 1.0)
        litters = float(self.costs.litters)
        row = linear.add_rows(low=litters, high=litters)
        linear.put(row, self.n[: kinds.dams], 1.0)
        least = quota_least or (0,) * len(kinds.quotas)
        for (of, highest), lowest in zip(kinds.quotas, least, strict=True):
            row = linear.add_rows(low=lowest, high=highest)
            linear.put(row, self.n[: kinds.dams][of], 1.0)

    def _lay(self, cut: Cut) -> None:
        each = self.scale * self.costs.each
        slope = 2 * each * (cut.split.smooth @ cut.point)
        row = self.linear.add_rows(low=-0.5 * float(slope @ cut.point))
        self.linear.put(row, self.n, -slope)
        self.linear.put(row, self.n[self.one], -each * cut.split.own[self.one])
        own = cut.split.own[self.slot_of] * (2 * self.rank + 1)
        self.linear.put(row, self.slot, -each * own)
        self.linear.put(row, self.curve, 1.0)

    def counts(self, values: Floats) -> Index:
        """Read the litters of each pair of kinds from an answer, rounded."""
        return np.round(values[self.pair]).astype(int)


def _ranks(of: Index, counts: Index) -> tuple[Index, Index]:
    """Repeat numbers, each so many times, and count each one's copies from 0."""
    repeated = np.repeat(of, counts)
    starts = np.repeat(np.cumsum(counts) - counts, counts)
    return repeated, np.arange(len(repeated)) - starts
