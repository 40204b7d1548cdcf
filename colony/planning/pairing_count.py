"""How many litters a plan can have, and the few pairs that the search begins with."""

from dataclasses import dataclass

import numpy as np

from colony.planning.pairing_model import Aim, Model, Question
from colony.planning.pairing_solver import solve
from colony.planning.pairing_wishes import Deadline, Effort, Index

NEAR_FOR_DAM, NEAR_FOR_SIRE = 8, 4
"""How many pairs of each dam and sire the search begins with."""


@dataclass(frozen=True, eq=False)
class Counted:
    """How many litters there can be, in all and of each quota, and whether that is proved.

    `pairs` are a few pairs that suffice for so many; `chosen` is one plan made of them, with
    its males' tanks, good or bad.
    """

    aim: Aim
    pairs: Index
    chosen: Index
    tank_of: dict[int, int]
    proved: bool
    impossible: bool = False


def count_litters(question: Question, effort: Effort, deadline: Deadline) -> Counted:
    """Find the most litters that the constraints allow, those of the quotas first."""
    pairs = near_pairs(question)
    counted = _counted(question, pairs, effort, deadline)
    for wider in (_wider, _all):
        if counted.aim.litters == _most(question) or len(counted.pairs) == len(question.must):
            break
        counted = _counted(question, wider(question, counted), effort, deadline)
    return counted


def _counted(question: Question, pairs: Index, effort: Effort, deadline: Deadline) -> Counted:
    answer = solve(Model(question, pairs, Aim(), []), deadline.left(), effort.nodes)
    if answer.chosen is None:
        return Counted(Aim(0), pairs, pairs[:0], {}, proved=False, impossible=answer.impossible)
    chosen = pairs[answer.chosen]
    dams = question.objective.dam[chosen]
    aim = Aim(len(dams), tuple(int(of[dams].sum()) for of, _ in question.quotas))
    return Counted(aim, pairs, chosen, answer.place_of_sire, proved=not answer.stopped)


def _wider(question: Question, counted: Counted) -> Index:
    """Add every pair of the dams that went without."""
    dam = question.objective.dam
    inside = ~np.isin(dam, dam[counted.chosen])
    inside[counted.pairs] = True
    return np.flatnonzero(inside)


def _all(question: Question, _counted: Counted) -> Index:
    return np.arange(len(question.must))


def _most(question: Question) -> int:
    """Count the most litters there could be if everybody suited everybody."""
    goal = question.objective
    dams = np.bincount(goal.dam, minlength=goal.dams) > 0
    free = dams.copy()
    most = 0
    for of, highest in question.quotas:
        most += min(highest, int((dams & of).sum()))
        free &= ~of
    sires = np.unique(goal.sire)
    most = min(most + int(free.sum()), int(question.capacity[sires].sum()))
    if question.most_litters is not None and question.most_litters < most:
        return -1 if question.quotas else question.most_litters
    return most


def near_pairs(question: Question) -> Index:
    """Find the pairs to begin with: the cheapest few of each parent, and a greedy plan.

    Equally cheap sires take turns from dam to dam, so that few pairs serve all.
    """
    goal = question.objective
    average = goal.kinship.mean(axis=0)
    cost = goal.f + goal.linear + goal.weight * average[goal.dams + goal.sire]
    turn = (goal.sire + goal.dam) % max(len(question.capacity), 1)
    near = question.must.copy()
    for parent, count in ((goal.dam, NEAR_FOR_DAM), (goal.sire, NEAR_FOR_SIRE)):
        order = np.lexsort((turn, cost.round(9), parent))
        starts = np.flatnonzero(np.diff(parent[order], prepend=-1))
        rank = np.arange(len(order)) - np.repeat(starts, np.diff(starts, append=len(order)))
        near[order[rank < count]] = True
    near[_greedy(question, np.lexsort((turn, cost)))] = True
    return np.flatnonzero(near)


def _greedy(question: Question, order: Index) -> list[int]:
    left, free, taken = question.capacity.tolist(), [True] * question.objective.dams, []
    dam, sire = question.objective.dam.tolist(), question.objective.sire.tolist()
    for pair in order.tolist():
        if free[dam[pair]] and left[sire[pair]]:
            free[dam[pair]] = False
            left[sire[pair]] -= 1
            taken.append(pair)
    return taken
