"""The search over kinds: a good plan soon, a bound below every plan, and the proof between them."""

from dataclasses import dataclass, field
from fractions import Fraction
from math import ceil, gcd

import numpy as np

from colony.planning.arrays import Floats, Index
from colony.planning.pairings.request import Deadline, Effort
from colony.planning.pairings.search.alike import Kinds, kinds, pairs_of
from colony.planning.pairings.search.count import LitterCount
from colony.planning.pairings.search.descent import (
    KindCosts,
    descended,
    good_plan,
    greedy_counts,
)
from colony.planning.pairings.search.kind_model import Cut, KindModel
from colony.planning.pairings.search.objective import own_part
from colony.planning.pairings.search.problem import PairingProblem
from colony.planning.pairings.search.splits import Split, Splitter
from colony.planning.solver.highs import relax, solve

MOST_KINDS = 450
"""With more kinds than this, splits take longer than they are worth."""

TOWARDS_THE_BEST = 0.8
"""Splits are made between the point of the last bound and the best plan (in-out separation:
Ben-Ameur & Neto 2007, Networks 49:3-17)."""

ROUNDS, PROOFS, KEPT = 60, 12, 8
"""Most rounds that bound, and that prove; tangents kept although nothing rests on them."""

STALLED, BOUNDING = 0.005, 0.65
"""The bound has done what it can when five rounds close less than this share of the gap, and
takes this share of the time at most."""

LAST_SECONDS = 2.0
"""How long closing a gap that is small enough is tried for."""

NO_MORE = 1e-12
"""Plans that differ by less are equally good."""

ROUNDING = 1e-6
"""A bound is known to this share of the objective."""


@dataclass(frozen=True, eq=False)
class FoundByKinds:
    """The best plan found, as open pairs, its objective, and the proved least objective."""

    chosen: Index
    value: float
    bound: float


def plan_by_kinds(
    problem: PairingProblem,
    counted: LitterCount,
    effort: Effort,
    deadline: Deadline,
) -> FoundByKinds | None:
    """Search among kinds of animals; None where tanks tell every animal from the next."""
    if problem.house is not None:
        return None
    of = kinds(problem)
    if len(of.size) > MOST_KINDS:
        return None
    costs = KindCosts(of, len(counted.chosen), problem.objective.weight)
    starts = [of.counts(counted.chosen)]
    greedy = None if of.quotas else greedy_counts(costs)
    best = good_plan(costs, starts if greedy is None else [*starts, greedy], deadline)
    search = _Search(costs, counted.aim.quota_least, effort, deadline, best)
    if effort.polish:
        # Plans of generations that are only drawn ask for no proof.
        search.bound_it()
        search.prove_it()
    chosen = pairs_of(of, problem, search.best)
    return FoundByKinds(chosen, problem.objective.value(chosen), search.bound)


@dataclass(eq=False)
class _Search:
    """What is known so far: the best plan, the bound, and what the bound rests on."""

    costs: KindCosts
    quota_least: tuple[int, ...]
    effort: Effort
    deadline: Deadline
    best: Index
    cuts: list[Cut] = field(default_factory=list)
    splits: list[Split] = field(default_factory=list)

    def __post_init__(self) -> None:
        of = self.kinds
        self.value = self.costs.value(self.best)
        self.bound = min(float(of.cost.min()), 0.0) if len(of.cost) else 0.0
        self.scale = 100 / self.size
        self.splitter = Splitter(of.kinship, of.dams, of.litters_of(self.best))
        self.step = objective_step(self.costs)
        if of.kinship.min() >= 0:
            # No kinship is negative: nothing is below what each parent has with itself.
            strangers = Split(np.zeros_like(of.kinship), np.diag(of.kinship).copy())
            self.cuts.append(Cut(strangers, np.zeros(len(of.size))))
        own = own_part(of.kinship)
        at = of.litters_of(self.best)
        self.cuts.append(Cut(Split(of.kinship - np.diag(own), own), at))

    @property
    def kinds(self) -> Kinds:
        return self.costs.kinds

    @property
    def size(self) -> float:
        """What a gap is a share of."""
        return max(abs(self.value), SMALL_VALUE)

    @property
    def gap(self) -> float:
        """The share by which a better plan could be lower, at most."""
        return (self.value - self.bound) / self.size

    @property
    def is_proved(self) -> bool:
        return self.gap <= self.effort.proof / 2

    def raise_bound(self, proved: float) -> None:
        """Take a proved bound, up to the next value that a plan can have."""
        if not np.isfinite(proved):
            return
        if self.step:
            sure = proved - ROUNDING * self.size
            proved = max(proved, ceil(sure / self.step) * self.step)
        self.bound = max(self.bound, min(proved, self.value))
        self.deadline.watch.tell(self.gap)

    def split_at(self, point: Floats, tangents_at: tuple[Floats, ...]) -> None:
        """Split at a point; lay tangents of this split and of the one before."""
        self.splits = [*self.splits[-KEPT:], self.splitter.at(point)]
        for split in self.splits[-2:]:
            self.cuts += [Cut(split, tangent_at) for tangent_at in tangents_at]

    def bound_it(self) -> None:
        """Allow shares of litters, and split where they and the best plan part."""
        best = self.kinds.litters_of(self.best)
        until = self.deadline.left() * (1 - BOUNDING)
        bounds: list[float] = []
        self.split_at(best, (best,))
        for _ in range(ROUNDS):
            model = KindModel(self.costs, self.quota_least, self.cuts, scale=self.scale)
            answer = relax(model.linear, seconds=self.deadline.left())
            if answer is None:
                return
            self.raise_bound(answer.cost / self.scale)
            bounds.append(answer.cost / self.scale)
            stalled = len(bounds) > 5 and bounds[-1] - bounds[-5] < STALLED * (  # noqa: PLR2004
                self.value - bounds[-1]
            )
            if self.is_proved or stalled or self.deadline.left() < until:
                return
            duals = answer.duals[model.cut_rows :]
            recent = len(self.cuts) - KEPT
            self.cuts = [c for n, c in enumerate(self.cuts) if duals[n] or n >= recent]
            point = answer.values[model.n]
            between = point + TOWARDS_THE_BEST * (best - point)
            self.split_at(between, (point, between))

    def prove_it(self) -> None:
        """Ask for a cheaper plan of whole litters until there is none."""
        for _ in range(PROOFS):
            if self.is_proved or self.deadline.is_over():
                return
            near = self.effort.proof * self.size / 4
            wanted = self.value - max(near, self.step / 2)
            best = self.kinds.litters_of(self.best)
            self.split_at(best, (best,))
            model = KindModel(
                self.costs, self.quota_least, self.cuts, scale=self.scale, cheaper_than=wanted
            )
            answer = solve(
                model.linear,
                seconds=self._patience,
                nodes=self.effort.nodes,
                gap=1e-6,
                stopped=self.deadline.stopped,
            )
            self.raise_bound(
                wanted if answer.impossible else min(answer.bound / self.scale, wanted)
            )
            if answer.values is None:
                return
            self._meet(model.counts(answer.values))

    @property
    def _patience(self) -> float:
        """Seconds for one more proof: few where the gap is small enough already."""
        left = self.deadline.left()
        return min(left, LAST_SECONDS) if self.gap <= self.effort.enough else left

    def _meet(self, found: Index) -> None:
        """Take a plan of an answer if it is better, and lay tangents where it is."""
        better = descended(self.costs, found, self.deadline)
        value = self.costs.value(better)
        if value < self.value - NO_MORE:
            self.best, self.value = better, value
        at = self.kinds.litters_of(found)
        self.split_at(at, (at,))
        self.cuts += [Cut(split, at) for split in self.splits[:-2]]


SMALL_VALUE = 1e-3
"""Below this objective, a gap is a share of this instead."""

FINEST = 20
"""Kinships that are not whole in units of 2 to the minus this are taken for any numbers."""


def objective_step(costs: KindCosts) -> float:
    """Find the number that the objective of every plan is a whole multiple of; 0 without one.

    Kinships of a known pedigree are whole in some 2^-k. With a weight p/q and N litters the
    objective, times 4 N^2 q 2^k, is 4 N q times one whole number plus p times another.
    """
    of = costs.kinds
    numbers = np.concatenate([of.kinship.ravel(), of.own, of.cost])
    weight = Fraction(costs.weight).limit_denominator(10_000)
    if not numbers.size or abs(float(weight) - costs.weight) > NO_MORE:
        return 0.0
    for fineness in range(FINEST):
        if np.abs(numbers * 2**fineness - np.round(numbers * 2**fineness)).max() < NO_MORE:
            n, p, q = costs.litters, weight.numerator, weight.denominator
            return float(Fraction(gcd(4 * n * q, p), 4 * n * n * q * 2**fineness))
    return 0.0
