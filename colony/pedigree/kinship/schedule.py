"""When each breeder enters the kinship table of a pass, and when it leaves."""

from collections import deque
from dataclasses import dataclass
from itertools import groupby, pairwise

import numpy as np

from colony.pedigree.doubt.doubts import UNKNOWN
from colony.pedigree.graph.nodes import BoolArray, IntArray, Nodes

AT_ONCE = 64
"""Newcomers taken together: enough to outweigh the call, few enough to stay in fast memory."""


@dataclass(frozen=True)
class TableStep:
    """Nodes whose parents are read, then nodes that enter the table, then nodes that leave it."""

    read: IntArray
    enter: IntArray
    leave: IntArray


@dataclass(frozen=True)
class Schedule:
    """The moves in order, and how many nodes are in the table at the same time at most."""

    moves: tuple[TableStep, ...]
    slots: int


def schedule(nodes: Nodes, stays: BoolArray) -> Schedule:
    """Plan one pass over all nodes.

    Parents enter before their pups, founders just before, and leave after the last;
    those that stay, (N,), never leave. A batch leaves as one, so that what it leaves is a run of
    slots side by side; therefore those that leave together enter together.
    """
    first_pup, last_pup = _pup_steps(nodes)
    breeders = nodes.order[(last_pup != UNKNOWN)[nodes.order] | stays[nodes.order]]
    alone = (nodes.first[breeders] == UNKNOWN) & (nodes.second[breeders] == UNKNOWN)
    enters = np.where(alone, np.maximum(first_pup[breeders] - 1, 0), nodes.step[breeders])
    by_entry = np.lexsort((last_pup[breeders], stays[breeders], enters))
    breeders = breeders[by_entry]
    entered = np.searchsorted(enters[by_entry], np.arange(len(nodes.by_step) + 1))
    leaves = np.maximum(entered[last_pup[breeders]], _last_entry_of_pups(nodes, breeders))
    leaves[stays[breeders]] = len(breeders) + 1
    return _cut(nodes.by_step, _batches(breeders, leaves, entered))


def _pup_steps(nodes: Nodes) -> tuple[IntArray, IntArray]:
    """Steps of the first and of the last pup of each node, (N,); without pups the last is -1."""
    order = nodes.order
    step = nodes.step[order]
    first = np.full((2, len(nodes) + 1), len(nodes.by_step), dtype=np.int64)
    last = np.full((2, len(nodes) + 1), UNKNOWN, dtype=np.int64)
    for at, parent in enumerate((nodes.first, nodes.second)):
        # Where an index repeats, the last assignment is the one that holds.
        last[at, parent[order]] = step
        first[at, parent[order[::-1]]] = step[::-1]
    return first.min(axis=0)[:-1], last.max(axis=0)[:-1]


def _last_entry_of_pups(nodes: Nodes, breeders: IntArray) -> IntArray:
    """How many breeders have entered once the last pup of each, itself a breeder, is among them."""
    entries = np.zeros((2, len(nodes) + 1), dtype=np.int64)
    for at, parent in enumerate((nodes.first, nodes.second)):
        entries[at, parent[breeders]] = np.arange(1, len(breeders) + 1)
    return np.asarray(entries.max(axis=0)[breeders])


@dataclass(frozen=True)
class _Batch:
    """Breeders that enter together at a step, and how many have entered once they may leave."""

    breeders: IntArray
    step: int
    leaves: int


def _batches(breeders: IntArray, leaves: IntArray, entered: IntArray) -> list[_Batch]:
    return [
        _Batch(breeders[at:until], step, int(leaves[at:until].max()))
        for step, (begin, end) in enumerate(pairwise(entered.tolist()))
        for at in range(begin, end, AT_ONCE)
        for until in (min(at + AT_ONCE, end),)
    ]


def _cut(born: tuple[IntArray, ...], batches: list[_Batch]) -> Schedule:
    """Put reading, entering and leaving in one order."""
    nobody = np.empty(0, dtype=np.int64)
    entering = {step: list(some) for step, some in groupby(batches, lambda batch: batch.step)}
    leaving = deque(sorted(batches, key=lambda batch: batch.leaves))
    moves = []
    inside = gone = most = 0

    def depart() -> IntArray:
        nonlocal gone
        some = [nobody]
        while leaving and leaving[0].leaves <= inside:
            some.append(leaving.popleft().breeders)
        departed = np.concatenate(some)
        gone += len(departed)
        return departed

    for step, pups in enumerate(born):
        moves.append(TableStep(pups, nobody, depart()))
        for batch in entering.get(step, ()):
            inside += len(batch.breeders)
            most = max(most, inside - gone)
            moves.append(TableStep(nobody, batch.breeders, depart()))
    return Schedule(tuple(moves), most)
