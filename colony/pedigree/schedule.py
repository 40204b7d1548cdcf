"""When each breeder enters the kinship table of a pass, and when it leaves."""

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from colony.pedigree.doubts import UNKNOWN
from colony.pedigree.nodes import BoolArray, IntArray, Nodes

AT_ONCE = 64
"""Newcomers taken together: enough to outweigh the call, few enough to stay in fast memory."""


@dataclass(frozen=True)
class Move:
    """Nodes whose parents are read, then nodes that enter the table, then nodes that leave it."""

    read: IntArray
    enter: IntArray
    leave: IntArray


@dataclass(frozen=True)
class Schedule:
    """The moves in order, and how many nodes are in the table at the same time at most."""

    moves: tuple[Move, ...]
    slots: int


def schedule(nodes: Nodes, asked: IntArray | None, stays: BoolArray) -> Schedule:
    """Plan one pass over the nodes asked for and their ancestors; None asks for all.

    Parents enter before their pups, founders just before, and leave after the last;
    those that stay, (N,), never leave.
    """
    order = nodes.order if asked is None else nodes.order[nodes.ancestors_of(asked)[nodes.order]]
    step = nodes.step[order]
    steps = np.arange(int(step[-1]) + 2 if step.size else 1)
    first_pup, last_pup = _pup_steps(nodes, order, step)
    breeders = order[(last_pup[order] != UNKNOWN) | stays[order]]
    alone = (nodes.first[breeders] == UNKNOWN) & (nodes.second[breeders] == UNKNOWN)
    enters = np.where(alone, np.maximum(first_pup[breeders] - 1, 0), nodes.step[breeders])
    by_entry = np.argsort(enters, kind="stable")
    breeders = breeders[by_entry]
    entered = np.searchsorted(enters[by_entry], steps)
    leaves = np.maximum(entered[last_pup[breeders]], _last_entry_of_pups(nodes, breeders))
    leaves[stays[breeders]] = len(breeders) + 1
    by_leaving = np.argsort(leaves, kind="stable")
    return _cut(
        _Lists(order, np.searchsorted(step, steps)),
        _Lists(breeders, entered),
        breeders[by_leaving],
        leaves[by_leaving],
    )


def _pup_steps(nodes: Nodes, order: IntArray, step: IntArray) -> tuple[IntArray, IntArray]:
    """Steps of the first and of the last pup of each node; -1 for the last where there is none."""
    first = np.zeros((2, len(nodes) + 1), dtype=np.int64)
    last = np.full((2, len(nodes) + 1), UNKNOWN, dtype=np.int64)
    first[:] = step[-1] + 1 if step.size else 0
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
class _Lists:
    """Nodes in order, and where those of each step begin."""

    nodes: IntArray
    begins: IntArray

    def batches(self, step: int, at_once: int) -> Iterator[IntArray]:
        begin, end = self.begins[step], self.begins[step + 1]
        return (self.nodes[at : min(at + at_once, end)] for at in range(begin, end, at_once))


def _cut(born: _Lists, entering: _Lists, leaving: IntArray, leaves: IntArray) -> Schedule:
    nobody = np.empty(0, dtype=np.int64)
    moves = []
    here = most = inside = gone = 0

    def depart() -> IntArray:
        nonlocal gone
        before, gone = gone, int(np.searchsorted(leaves, inside, side="right"))
        return leaving[before:gone]

    for step in range(len(born.begins) - 1):
        pups = born.nodes[born.begins[step] : born.begins[step + 1]]
        moves.append(Move(pups, nobody, depart()))
        for newcomers in entering.batches(step, AT_ONCE):
            inside += len(newcomers)
            here = inside - gone
            most = max(most, here)
            moves.append(Move(nobody, newcomers, depart()))
    return Schedule(tuple(moves), most)
