"""Interim dense kinship."""

import numpy as np
from numpy.typing import NDArray

from colony.pedigree.graph import IntArray, Pedigree

FloatArray = NDArray[np.float64]


def _table(p: Pedigree) -> FloatArray:
    n = len(p.tags)
    nodes: list[tuple[tuple[int, ...], tuple[float, ...]]] = []
    sire_of = [int(s) for s in p.sire]
    for d in p.doubts:
        groups = [(x,) for x in d.pups] if d.pups_may_differ else [d.pups]
        for g in groups:
            nodes.append((d.sires, d.shares))
            for x in g:
                sire_of[x] = n + len(nodes) - 1
    total = n + len(nodes)
    order: list[int] = []
    seen: set[int] = set()

    def visit(start: int) -> None:
        stack = [(start, False)]
        while stack:
            i, done = stack.pop()
            if done:
                order.append(i)
                continue
            if i in seen or i < 0:
                continue
            seen.add(i)
            stack.append((i, True))
            up = list(nodes[i - n][0]) if i >= n else [int(p.dam[i]), sire_of[i]]
            stack.extend((j, False) for j in up if j >= 0)

    for i in range(total):
        visit(i)
    k = np.zeros((total, total))
    done: list[int] = []
    for i in order:
        row = np.zeros(total)
        if i >= n:
            sires, shares = nodes[i - n]
            for s, w in zip(sires, shares, strict=True):
                if s >= 0:
                    row += w * k[s]
            own = sum(w * (k[s, s] if s >= 0 else 0.5) for s, w in zip(sires, shares, strict=True))
        else:
            d, s = int(p.dam[i]), sire_of[i]
            if d >= 0:
                row += 0.5 * k[d]
            if s >= 0:
                row += 0.5 * k[s]
            own = 0.5 + 0.5 * (k[d, s] if d >= 0 and s >= 0 else 0.0)
        k[i, done] = row[done]
        k[done, i] = row[done]
        k[i, i] = own
        done.append(i)
    return k


def kinship(p: Pedigree, rows: IntArray, columns: IntArray) -> FloatArray:
    """Kinship of k animals with m others, shape (k, m)."""
    return np.asarray(_table(p)[np.ix_(rows, columns)])


def mean_kinship(p: Pedigree, living: IntArray) -> FloatArray:
    """Mean kinship of the living, themselves included (Ballou & Lacy 1995)."""
    return np.asarray(kinship(p, living, living).mean(axis=1))
