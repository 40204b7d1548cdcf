"""Sets for orders as a linear model in whole numbers: full sibs as one class, an order as a block.

The sum of products of counts is made linear as in Glover 1975, Improved linear integer
programming formulations of nonlinear integer problems, Manage. Sci. 22:455-460 (from memory).
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from colony.planning.arrays import Bools, Floats, Index
from colony.planning.solver.model import LinearModel

TOLERANCE = 1e-9
"""Two kinships that differ by less are one: they are sums of powers of one half."""


@dataclass(frozen=True, eq=False)
class SaleStock:
    """The animals that may be had: ``kinship`` of each with each, shape (n, n).

    `family` is equal for full sibs, `rank` what else tells animals apart: a class is of one.
    """

    tags: tuple[str, ...]
    kinship: Floats
    family: tuple[str, ...]
    rank: tuple[object, ...]


@dataclass(frozen=True, eq=False)
class SetWanted:
    """One order: how many for each line of it, and who would do, shape (lines, n).

    `limit` is the greatest kinship within the set and with what the buyer has already; `had`
    the kinship of each animal with those, shape (n,).
    """

    wanted: tuple[int, ...]
    would_do: Bools
    limit: float = 1.0
    had: Floats | None = None

    @property
    def size(self) -> int:
        """How many animals in all."""
        return sum(self.wanted)


@dataclass(frozen=True, eq=False)
class Classes:
    """Animals put together; `of` has the places of each, `kinship` their kinship, shape (m, m).

    The diagonal is the kinship of two of one class.
    """

    of: tuple[tuple[int, ...], ...]
    kinship: Floats
    sizes: Index


def classes_of(stock: SaleStock, orders: Sequence[SetWanted]) -> Classes:
    """Put full sibs together that every order takes alike."""
    wanted = np.zeros(len(stock.tags), dtype=bool)
    for order in orders:
        wanted |= order.would_do.any(axis=0)
    groups: dict[object, list[int]] = {}
    for at in np.flatnonzero(wanted).tolist():
        doing = tuple(
            (order.would_do[:, at].tobytes(), 0.0 if order.had is None else float(order.had[at]))
            for order in orders
        )
        groups.setdefault((stock.family[at], stock.rank[at], doing), []).append(at)
    of: list[tuple[int, ...]] = []
    for group in groups.values():
        of += _alike(stock.kinship, group)
    first = np.array([members[0] for members in of], dtype=np.intp)
    kinship = stock.kinship[np.ix_(first, first)].copy() if of else np.zeros((0, 0))
    for at, members in enumerate(of):
        kinship[at, at] = stock.kinship[members[0], members[1]] if len(members) > 1 else 0.0
    return Classes(tuple(of), kinship, np.array([len(m) for m in of], dtype=np.intp))


def _alike(kinship: Floats, group: Sequence[int]) -> list[tuple[int, ...]]:
    """Split a family whose members are not in fact of one kinship with everybody."""
    classes: list[list[int]] = []
    for at in group:
        for members in classes:
            other = np.delete(np.arange(len(kinship)), [at, members[0]])
            same = np.abs(kinship[at, other] - kinship[members[0], other]) <= TOLERANCE
            within = [kinship[at, member] for member in members]
            if same.all() and np.ptp([*within, *_within(kinship, members)]) <= TOLERANCE:
                members.append(at)
                break
        else:
            classes.append([at])
    return [tuple(members) for members in classes]


def _within(kinship: Floats, members: Sequence[int]) -> list[float]:
    return [float(kinship[members[0], other]) for other in members[1:]]


def model_of(
    classes: Classes,
    orders: Sequence[SetWanted],
    limit: float,
    without: Sequence[Index],
    *,
    costs: bool = False,
) -> tuple[LinearModel, list["OrderBlock"]]:
    """All orders together, no animal twice."""
    model = LinearModel()
    blocks = [
        OrderBlock(model, classes, order, min(limit, order.limit), without, costs=costs)
        for order in orders
    ]
    start = model.add_rows(len(classes.of), high=classes.sizes.astype(float))
    for block in blocks:
        model.put(start + block.unit_class, block.units, 1.0)
    return model, blocks


class OrderBlock:
    """The unknowns of one order: how many of each class, in steps of one."""

    def __init__(  # noqa: PLR0913 - the parts of one block of a model
        self,
        model: LinearModel,
        classes: Classes,
        order: SetWanted,
        limit: float,
        without: Sequence[Index] = (),
        *,
        costs: bool = False,
    ) -> None:
        self.model, self.classes, self.order, self.limit = model, classes, order, limit
        first = np.array([members[0] for members in classes.of], dtype=np.intp)
        had = np.zeros(len(first)) if order.had is None else order.had[first]
        usable = had <= order.limit + TOLERANCE
        most = np.where(usable, np.minimum(classes.sizes, order.size), 0)
        most = np.where(np.diag(classes.kinship) > limit + TOLERANCE, np.minimum(most, 1), most)
        self.unit_class = np.repeat(np.arange(len(first)), most)
        self.unit_step = np.concatenate([np.zeros(0, dtype=np.intp), *map(np.arange, most)])
        within = np.diag(classes.kinship)[self.unit_class] * self.unit_step
        pairs = max(order.size * (order.size - 1) / 2, 1)
        self.units = model.add_variables(
            len(self.unit_class), cost=within / pairs if costs else 0.0
        )
        self._lines(order.would_do[:, first])
        self._steps()
        self._conflicts()
        if costs:
            self._products(pairs)
        for counts in without:
            self._not(counts)

    def whole_counts(self, values: Floats) -> Index:
        """How many of each class, shape (m,)."""
        taken = np.bincount(
            self.unit_class, weights=values[self.units], minlength=len(self.classes.of)
        )
        return np.rint(taken).astype(np.intp)

    def _lines(self, would_do: Bools) -> None:
        """Each line of the order gets its number, out of the classes that would do."""
        lines, places = np.nonzero(would_do)
        given = self.model.add_variables(len(lines), high=float(self.order.size))
        start = self.model.add_rows(
            len(would_do),
            low=np.array(self.order.wanted, dtype=float),
            high=np.array(self.order.wanted, dtype=float),
        )
        self.model.put(start + lines, given, 1.0)
        start = self.model.add_rows(len(self.classes.of), low=0.0, high=0.0)
        self.model.put(start + places, given, 1.0)
        self.model.put(start + self.unit_class, self.units, -1.0)

    def _steps(self) -> None:
        """The second of a class is taken after the first."""
        later = np.flatnonzero(self.unit_step > 0)
        start = self.model.add_rows(len(later), high=0.0)
        rows = start + np.arange(len(later))
        self.model.put(rows, self.units[later], 1.0)
        self.model.put(rows, self.units[later - 1], -1.0)

    def _conflicts(self) -> None:
        """No two classes that are more related than the limit."""
        firsts = np.flatnonzero(self.unit_step == 0)
        kinds = self.unit_class[firsts]
        apart = self.classes.kinship[np.ix_(kinds, kinds)] > self.limit + TOLERANCE
        np.fill_diagonal(apart, val=False)
        busy = np.flatnonzero(apart.any(axis=1))
        most = np.minimum(apart[busy].sum(axis=1), self.order.size).astype(float)
        start = self.model.add_rows(len(busy), high=most)
        self.model.put(start + np.arange(len(busy)), self.units[firsts[busy]], most)
        rows, others = np.nonzero(apart[busy])
        self.model.put(start + rows, self.units[firsts[others]], 1.0)

    def _products(self, pairs: float) -> None:
        """What each one taken costs beside the others of its set, each pair counted twice."""
        kinship = self.classes.kinship[np.ix_(self.unit_class, self.unit_class)].copy()
        kinship[self.unit_class[:, None] == self.unit_class[None, :]] = 0.0
        kinship[kinship > self.limit + TOLERANCE] = 0.0
        busy = np.flatnonzero(kinship.any(axis=1))
        most = kinship[busy].max(axis=1, initial=0.0) * self.order.size
        paid = self.model.add_variables(
            len(busy), cost=0.5 / pairs, high=np.maximum(most, TOLERANCE), whole=False
        )
        start = self.model.add_rows(len(busy), low=-most)
        rows = start + np.arange(len(busy))
        self.model.put(rows, paid, 1.0)
        self.model.put(rows, self.units[busy], -most)
        at, others = np.nonzero(kinship[busy])
        self.model.put(start + at, self.units[others], -kinship[busy][at, others])

    def _not(self, counts: Index) -> None:
        """Another set than one that was found."""
        taken = np.flatnonzero(self.unit_step < counts[self.unit_class])
        row = self.model.add_rows(high=float(len(taken) - 1))
        self.model.put(row, self.units[taken], 1.0)
