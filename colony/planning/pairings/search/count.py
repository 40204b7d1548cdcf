"""How many litters a plan can have, and the few pairs that the search begins with."""

from dataclasses import dataclass, replace

import numpy as np

from colony.planning.arrays import Index
from colony.planning.pairings.request import Deadline, Effort
from colony.planning.pairings.search.greedy import greedy_pairs
from colony.planning.pairings.search.model import Aim, PairingModel
from colony.planning.pairings.search.problem import PairingProblem
from colony.planning.solver.highs import solve
from colony.planning.solver.solution import WholeSolution

NEAR_FOR_DAM, NEAR_FOR_SIRE = 8, 4
"""How many pairs of each dam and sire the search begins with."""


@dataclass(frozen=True, eq=False)
class LitterCount:
    """How many litters there can be, in all and of each quota, and whether that is proved.

    `pairs` are a few pairs that suffice for so many; `chosen` is one plan made of them, good
    or bad.
    """

    aim: Aim
    pairs: Index
    chosen: Index
    proved: bool
    impossible: bool = False


def count_litters(problem: PairingProblem, effort: Effort, deadline: Deadline) -> LitterCount:
    """Find the most litters that the constraints allow, those of the quotas first.

    A fifth of the time at most goes into it.
    """
    counted = _greedy_start(problem, near_pairs(problem))
    for wider in (_same, _wider, _all):
        if counted.proved:
            break
        pairs = wider(problem, counted)
        seconds = min(deadline.left(), effort.seconds / 15)
        model = PairingModel(problem, pairs, Aim(), [])
        answer = solve(model.linear, seconds=seconds, nodes=effort.nodes, stopped=deadline.stopped)
        counted = _after(model, counted, answer)
    return counted


def _greedy_start(problem: PairingProblem, pairs: Index) -> LitterCount:
    """Take pairs one by one: a plan to begin with, if the required pairs fit."""
    goal, house = problem.objective, problem.house
    size = house.dam_mm2[goal.dam] if house else np.zeros(len(goal.dam))
    orders = (pairs, np.lexsort((goal.f, goal.dam)), np.lexsort((goal.sire, size)))
    tries = [greedy_pairs(problem, order) for order in orders]
    whole = [plan for plan in tries if np.isin(np.flatnonzero(problem.required), plan).all()]
    counted = [_counting(problem, np.union1d(pairs, plan), plan) for plan in whole]
    return max(counted, key=_rank, default=_counting(problem, pairs, pairs[:0]))


def _counting(problem: PairingProblem, pairs: Index, chosen: Index) -> LitterCount:
    dams = problem.objective.dam[chosen]
    aim = Aim(len(dams), tuple(int(of[dams].sum()) for of, _ in problem.quotas))
    return LitterCount(
        aim, pairs, chosen, proved=(sum(aim.quota_least), len(dams)) == _most(problem)
    )


def _after(model: PairingModel, before: LitterCount, answer: WholeSolution) -> LitterCount:
    """Take the answer if it has more litters; over all pairs, it is proof as well."""
    problem, pairs, chosen = model.problem, model.pairs, model.chosen(answer)
    everything = len(pairs) == len(problem.required)
    if chosen is None:
        return replace(before, pairs=pairs, impossible=answer.impossible and everything)
    found = _counting(problem, pairs, chosen)
    best = max(replace(before, pairs=pairs), found, key=_rank)
    return replace(best, proved=best.proved or (everything and answer.proved))


def _rank(counted: LitterCount) -> tuple[int, int]:
    return sum(counted.aim.quota_least), len(counted.chosen)


def _same(_question: PairingProblem, counted: LitterCount) -> Index:
    return counted.pairs


def _wider(problem: PairingProblem, counted: LitterCount) -> Index:
    """Add every pair of the dams that went without."""
    dam = problem.objective.dam
    inside = ~np.isin(dam, dam[counted.chosen])
    inside[counted.pairs] = True
    return np.flatnonzero(inside)


def _all(problem: PairingProblem, _counted: LitterCount) -> Index:
    return np.arange(len(problem.required))


def _most(problem: PairingProblem) -> tuple[int, int]:
    """Count the most litters of the quotas, and of all, if everybody suited everybody."""
    goal = problem.objective
    dams = np.bincount(goal.dam, minlength=goal.dams) > 0
    quotas = [(of & dams, highest) for of, highest in problem.quotas]
    asked = sum(min(highest, int(of.sum())) for of, highest in quotas)
    free = dams & ~np.any([of for of, _ in quotas], axis=0) if quotas else dams
    most = min(asked + int(free.sum()), int(problem.capacity[np.unique(goal.sire)].sum()))
    return asked, most if problem.most_litters is None else min(most, problem.most_litters)


def near_pairs(problem: PairingProblem) -> Index:
    """Find the pairs to begin with: the cheapest few of each parent, and a greedy plan.

    Equally cheap sires take turns from dam to dam, so that few pairs serve all.
    """
    goal = problem.objective
    average = goal.kinship.mean(axis=0)
    cost = goal.f + goal.linear + goal.weight * average[goal.dams + goal.sire]
    turn = (goal.sire + goal.dam) % max(len(problem.capacity), 1)
    near = problem.required.copy()
    for parent, count in ((goal.dam, NEAR_FOR_DAM), (goal.sire, NEAR_FOR_SIRE)):
        order = np.lexsort((turn, cost.round(9), parent))
        starts = np.flatnonzero(np.diff(parent[order], prepend=-1))
        rank = np.arange(len(order)) - np.repeat(starts, np.diff(starts, append=len(order)))
        near[order[rank < count]] = True
    near[greedy_pairs(problem, np.lexsort((turn, cost)))] = True
    return np.flatnonzero(near)
