"""A quick answer to a housing problem: who leaves, and the first tanks that take them.

Each broken tank keeps as many as it can; those that leave go litter by litter, the largest
discs first, into the fullest tank that still has room (best fit decreasing; Johnson 1974,
Fast algorithms for bin packing, J. Comput. Syst. Sci. 8:272-314). It proves nothing, but an
answer with no more moves than must be is as good as any.
"""

from collections.abc import Iterable

import numpy as np

from colony.planning.arrays import Bools, Index
from colony.planning.tanks.bounds import kept_rows
from colony.planning.tanks.placement import Answer
from colony.planning.tanks.placement_problem import PlacementProblem
from colony.planning.tanks.week import SLACK

SOLD = -1
TRIED = 3
"""How many residents of a tank are tried for making room for one that finds none."""


def pack(problem: PlacementProblem) -> Answer:
    """Find room for the free animals that must leave their tanks.

    Returns
    -------
    Answer
        "found", where animals without room are sold if the problem allows it; "unknown" when
        some find no room and must not be sold.
    """
    packing = _Packing(problem)
    for group in _groups(problem, packing.leaving()):
        packing.put(group)
    return packing.answer()


class _Packing:
    """The tanks as they fill."""

    def __init__(self, problem: PlacementProblem) -> None:
        self.problem, self.week, self.later = problem, problem.week, problem.later
        self.place = self.week.home.copy()
        homes = np.unique(self.week.home[problem.free]).tolist()
        broken = [t for t in homes if not self.week.holds(t, self.week.residents(t))]
        self.broken = np.array(broken, dtype=np.intp)
        inside = np.bincount(self.place, self.later.disc_mm2, len(self.week.tanks))
        self.room = self.week.capacity_mm2 * (1 + SLACK) - inside
        self.free = np.isin(np.arange(len(self.place)), problem.free)

    def leaving(self) -> Index:
        """Take the animals out that their tanks cannot keep."""
        out = [np.empty(0, dtype=np.intp)]
        for tank in self.broken.tolist():
            rows = self.week.residents(tank)
            out.append(np.setdiff1d(rows, kept_rows(self.week, tank, rows)))
        gone = np.concatenate(out)
        self.place[gone] = SOLD
        return gone

    def put(self, group: Index) -> None:
        """Put a group into one tank, or its halves where they fit, down to single animals."""
        tank = self._best_tank(group)
        if tank is not None:
            self._set(group, tank)
        elif len(group) > 1:
            middle = (len(group) + 1) // 2
            self.put(group[:middle])
            self.put(group[middle:])
        else:
            self._put_in_anothers_place(int(group[0]))

    def _set(self, group: Index, tank: int) -> None:
        discs = self.later.disc_mm2[group]
        here = self.place[group]
        np.add.at(self.room, here[here >= 0], discs[here >= 0])
        self.place[group] = tank
        self.room[tank] -= discs.sum()

    def _put_in_anothers_place(self, row: int) -> None:
        """Find a resident of another tank that can go elsewhere and leaves room enough."""
        group = np.array([row])
        for tank in np.flatnonzero(self._open_to(group)).tolist():
            needed = self.later.disc_mm2[row] - self.room[tank]
            there = np.flatnonzero((self.place == tank) & (self.week.home == tank) & self.free)
            enough = there[self.later.disc_mm2[there] >= needed]
            for other in enough[np.argsort(self.later.disc_mm2[enough])][:TRIED].tolist():
                elsewhere = self._swap(row, other, tank)
                if elsewhere is not None:
                    self._set(np.array([other]), elsewhere)
                    self._set(group, tank)
                    return

    def _swap(self, row: int, other: int, tank: int) -> int | None:
        staying = np.setdiff1d(np.flatnonzero(self.place == tank), [other])
        if self.later.clash(row, staying).any():
            return None
        elsewhere = self._best_tank(np.array([other]))
        return None if elsewhere == tank else elsewhere

    def answer(self) -> Answer:
        """Read the tanks, if they keep the limits and nobody is left over unasked."""
        free, tanks = self.problem.free, self.place[self.problem.free]
        gone = free[tanks == SOLD]
        if len(gone) and not (self.problem.means == "sell" and self.week.sellable[gone].all()):
            return Answer("unknown")
        if not all(map(self._holds, np.unique(self.place[self.place >= 0]).tolist())):
            return Answer("unknown")
        moves = int((tanks != self.week.home[free]).sum()) - len(gone)
        return Answer("found", tuple(tanks.tolist()), moves, self._splits(tanks), len(gone))

    def _open_to(self, group: Index) -> Bools:
        open_to = np.array(self.later.may_go[group].all(axis=0), dtype=bool)
        open_to[self.broken] = False
        open_to[list(self.problem.closed_tanks)] = False
        return open_to

    def _best_tank(self, group: Index) -> int | None:
        needed = self.later.disc_mm2[group].sum()
        choices = np.flatnonzero(self._open_to(group) & (self.room >= needed))
        first = int(group[0])
        mates: set[int] = set()
        if self.week.swimmers[first].litter:
            mates = set(self.place[self.week.kin == self.week.kin[first]].tolist())
        for tank in sorted(choices.tolist(), key=lambda t: (t not in mates, self.room[t], t)):
            if self.later.alike(np.concatenate([np.flatnonzero(self.place == tank), group])):
                return tank
        return None

    def _holds(self, tank: int) -> bool:
        there = np.flatnonzero(self.place == tank)
        joined = bool((self.week.home[there] != tank).any())
        asked = joined or tank in self.broken
        return not asked or self.week.holds(tank, there)

    def _splits(self, tanks: Index) -> int:
        """Count the tanks that litters of the free animals come to lie in beside no mate."""
        free = set(self.problem.free.tolist())
        names = [s.litter for s in self.week.swimmers]
        fixed = {(n, int(t)) for r, (n, t) in enumerate(zip(names, self.place, strict=True))
                 if n and r not in free}  # fmt: skip
        own = [names[row] for row in self.problem.free.tolist()]
        shared = {n for n in own if n and (own.count(n) > 1 or any(n == f for f, _ in fixed))}
        found = {(n, t) for n, t in zip(own, tanks.tolist(), strict=True) if n in shared}
        return len(found - fixed)


def _groups(problem: PlacementProblem, leaving: Index) -> Iterable[Index]:
    """Group the leaving animals by litter: what cannot be sold first, then the most floor."""
    week = problem.week
    groups: dict[str, list[int]] = {}
    for row in leaving.tolist():
        groups.setdefault(week.swimmers[row].litter or week.swimmers[row].tag, []).append(row)
    discs, sellable = problem.later.disc_mm2, week.sellable
    return sorted(
        (np.array(sorted(rows, key=lambda row: -discs[row])) for rows in groups.values()),
        key=lambda rows: (bool(sellable[rows].all()), -float(discs[rows].sum())),
    )
