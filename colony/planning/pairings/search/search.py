"""The search for the best plan: by kinds of animals, and pair by pair where tanks are offered.

Pair by pair it is bounded with few pairs, the rest are proved useless, and the best chosen.
Shares of pairs are allowed first; pairs that are left out are priced by the duals and let in
where they would help (column generation, Dantzig & Wolfe 1960, Oper. Res. 8:101-111). Pairs
whose price exceeds the distance between bound and best plan can be in no better plan.
"""

from dataclasses import dataclass, replace

import numpy as np

from colony.planning.arrays import Bools, Floats, Index
from colony.planning.pairings.request import Deadline, Effort
from colony.planning.pairings.search.by_kinds import SMALL_VALUE, FoundByKinds, plan_by_kinds
from colony.planning.pairings.search.count import LitterCount
from colony.planning.pairings.search.model import SCALE, Aim, PairingModel
from colony.planning.pairings.search.objective import TIE
from colony.planning.pairings.search.problem import PairingProblem
from colony.planning.pairings.tanks import animals_moved
from colony.planning.solver.highs import relax, solve
from colony.planning.solver.solution import RelaxedSolution, WholeSolution

BOUNDING_ROUNDS, CHOOSING_ROUNDS = 60, 25

EQUAL = 2e-6
"""Costs (in hundredths) closer than this are one: HiGHS proves no closer."""

SMALL = SCALE * SMALL_VALUE
"""Below this cost, a gap is a share of this instead."""

ROOT_NODES = 20
"""What the beginning of a search costs, in nodes."""

FEW_NODES = 50
"""A search of fewer nodes is not worth its beginning."""


@dataclass(frozen=True, eq=False)
class BestPairs:
    """The best plan found: its pairs, its cost, the proved least cost, and what of it is ties."""

    chosen: Index
    cost: float
    bound: float
    ties: float

    @property
    def gap(self) -> float:
        """The share of the cost that a better plan could save at most; moves count for nothing."""
        above = self.cost - self.ties - self.bound
        return 0.0 if above <= EQUAL else above / max(abs(self.cost), SMALL)


@dataclass(frozen=True, eq=False)
class _Bounded:
    """What the shares proved: a bound, the least price of each pair, and where tangents lie.

    `few` are the pairs that sufficed for it.
    """

    bound: float
    price: Floats
    few: Index
    tangents: list[Floats]


def best_plan(
    problem: PairingProblem, counted: LitterCount, effort: Effort, deadline: Deadline
) -> BestPairs:
    """Find the best plan of so many litters, or the best found in the time.

    Each round chooses among the pairs whose price lies within reach of the bound: a plan
    cheaper than bound and reach together has no others. So each round moves the bound too.
    """
    found = plan_by_kinds(problem, counted, effort, deadline)
    if found is not None and len(problem.required) * FEW_NODES > effort.polish:
        return _of_kinds(problem, found)
    bounded = _bounded(problem, counted, effort, deadline)
    reach = effort.enough * max(abs(bounded.bound), SMALL)
    if found is None:
        best = _first(problem, counted, bounded, effort, deadline)
    else:
        best = _of_kinds(problem, found)
    tangents, work = [*bounded.tangents, problem.objective.litters_of(best.chosen)], 0
    for _ in range(CHOOSING_ROUNDS):
        useful = np.flatnonzero((bounded.price <= reach + EQUAL) | problem.required)
        polishing = bool(best.gap <= effort.enough)
        model = PairingModel(
            problem, useful, replace(counted.aim, fewest_moves=polishing), tangents
        )
        nodes = (effort.polish - work) // model.linear.variables if polishing else effort.nodes
        if nodes < FEW_NODES or best.cost - best.bound <= EQUAL or deadline.is_over():
            break
        gap = 0.0 if polishing else effort.enough / 4
        answer = solve(
            model.linear,
            seconds=deadline.left(),
            nodes=nodes,
            gap=gap,
            stopped=deadline.stopped,
        )
        work += (answer.nodes + ROOT_NODES) * model.linear.variables if polishing else 0
        best = _better(best, model, answer, bounded.bound + reach)
        deadline.watch.tell(best.gap)
        chosen = model.chosen(answer)
        if chosen is not None:
            tangents.append(problem.objective.litters_of(chosen))
        reach = min(best.cost - bounded.bound, 8 * reach)
    return best


def _first(
    problem: PairingProblem,
    counted: LitterCount,
    bounded: _Bounded,
    effort: Effort,
    deadline: Deadline,
) -> BestPairs:
    """Choose among the few pairs that the bound rests on: it is often close enough to it."""
    best = _costed(problem, counted.chosen, bounded.bound)
    if deadline.is_over():
        return best
    model = PairingModel(problem, bounded.few, counted.aim, bounded.tangents)
    seconds, gap = deadline.left() / 2, effort.enough / 4
    answer = solve(
        model.linear, seconds=seconds, nodes=effort.nodes, gap=gap, stopped=deadline.stopped
    )
    return _better(best, model, answer, bounded.bound)


def _better(
    best: BestPairs, model: PairingModel, answer: WholeSolution, reached: float
) -> BestPairs:
    """Keep the cheaper of the best plan and an answer, and what the answer proved."""
    least = np.inf if answer.impossible else answer.bound
    bound = max(best.bound, min(least, reached))
    chosen = model.chosen(answer)
    if chosen is not None:
        other = _costed(model.problem, chosen, bound)
        if other.cost < best.cost:
            best = other
    return replace(best, bound=min(bound, best.cost))


def _costed(problem: PairingProblem, chosen: Index, bound: float) -> BestPairs:
    """Count the cost of whole pairs as a model does: the objective, and a trifle for moves."""
    ties = SCALE * TIE * animals_moved(problem, chosen) / len(chosen)
    cost = SCALE * problem.objective.value(chosen) + ties
    return BestPairs(chosen, cost, min(bound, cost), ties)


def _of_kinds(problem: PairingProblem, found: FoundByKinds) -> BestPairs:
    return _costed(problem, found.chosen, SCALE * found.bound)


def _bounded(
    problem: PairingProblem, counted: LitterCount, effort: Effort, deadline: Deadline
) -> _Bounded:
    """Bound every plan from below with shares of pairs."""
    inside = np.zeros(len(problem.required), dtype=bool)
    inside[counted.pairs] = True
    tangents = [_even(problem, counted.aim)]
    # Before anything is solved: neither F nor kinship is below zero.
    least = SCALE * float(np.minimum(problem.objective.linear, 0.0).min())
    best = _Bounded(least, np.zeros(len(inside)), counted.pairs, tangents)
    for _ in range(BOUNDING_ROUNDS):
        model = PairingModel(problem, np.flatnonzero(inside), counted.aim, tangents)
        answer = relax(model.linear, seconds=deadline.left())
        if answer is None:
            break
        price = model.price(answer.duals)
        if _let_in(inside, price):
            continue
        if answer.cost > best.bound:
            duals = answer.duals[model.cut_rows :].tolist()
            binding = [t for t, dual in zip(model.tangents, duals, strict=True) if dual]
            best = _Bounded(answer.cost, price, model.pairs, binding)
        point, error = _point(problem, counted.aim, model, answer)
        if error <= effort.enough / 4 * abs(answer.cost) or deadline.is_over():
            break
        tangents += [point, (point + tangents[-1]) / 2]
    return best


def _let_in(inside: Bools, price: Floats) -> bool:
    """Let in the pairs that would help most, a few thousand at most."""
    helps = np.flatnonzero(~inside & (price < -EQUAL))
    if len(helps):
        inside[helps[np.argsort(price[helps], kind="stable")[:4000]]] = True
    return bool(len(helps))


def _even(problem: PairingProblem, aim: Aim) -> Floats:
    """Litters of each parent if all of one sex had the same: where the first tangent lies."""
    goal = problem.objective
    sires = len(goal.kinship) - goal.dams
    counts = [(aim.litters or 0) / max(n, 1) for n in (goal.dams, sires)]
    return np.repeat(np.array(counts), [goal.dams, sires])


def _point(
    problem: PairingProblem, aim: Aim, model: PairingModel, answer: RelaxedSolution
) -> tuple[Floats, float]:
    """Litters of each parent in an answer, and how far its curve lies below the true one."""
    goal = problem.objective
    parents = np.concatenate([model.dam, goal.dams + model.sire])
    litters = np.bincount(parents, np.tile(answer.values[model.pair], 2), len(goal.kinship)).astype(
        float
    )
    factor = SCALE * goal.weight / (4 * (aim.litters or 1) ** 2)
    return litters, factor * float(litters @ problem.curved @ litters) - float(
        answer.values[model.curve[0]]
    )
