"""The best sets for orders, beside every set there is."""

from collections.abc import Iterator
from itertools import combinations, pairwise
from time import monotonic

import numpy as np
import pytest

from colony.planning.arrays import Bools, Floats
from colony.planning.orders.sets import SaleStock, SetFound, SetWanted, best_sets, sets_for


def herd(seed: int, animals: int, families: int) -> SaleStock:
    """Animals of some families; two families are unrelated, half sibs, or cousins."""
    chance = np.random.default_rng(seed)
    family = chance.integers(families, size=animals)
    between = chance.choice([0.0, 0.0, 0.03125, 0.0625, 0.125], size=(families, families))
    between = np.triu(between, 1) + np.triu(between, 1).T + np.eye(families) * 0.25
    kinship = between[np.ix_(family, family)].astype(float)
    np.fill_diagonal(kinship, 0.5)
    tags = tuple(f"P{n}" for n in range(animals))
    return SaleStock(tags, kinship, tuple(map(str, family)), ("",) * animals)


def orders_of(seed: int, stock: SaleStock, count: int) -> list[SetWanted]:
    """Orders of two lines, each of them asking for half of the animals or so."""
    chance = np.random.default_rng(seed + 1000)
    found = []
    for _ in range(count):
        lines = int(chance.integers(1, 3))
        would_do = chance.random((lines, len(stock.tags))) < 0.6
        wanted = tuple(chance.integers(1, 3, size=lines).tolist())
        had = chance.choice([0.0, 0.0, 0.125], size=len(stock.tags))
        limit = float(chance.choice([0.0, 0.0625, 0.25, 1.0]))
        found.append(SetWanted(wanted, would_do, limit, had))
    return found


def fits(order: SetWanted, members: tuple[int, ...]) -> bool:
    """Whether some animals can be dealt out to the lines of an order."""
    if not order.wanted:
        return not members
    first, *rest = order.wanted
    after = SetWanted(tuple(rest), order.would_do[1:], order.limit, order.had)
    return any(
        all(order.would_do[0, at] for at in part)
        and fits(after, tuple(at for at in members if at not in part))
        for part in combinations(members, first)
    )


def allowed(stock: SaleStock, order: SetWanted) -> Iterator[tuple[tuple[int, ...], float, float]]:
    """Every set for an order with its greatest kinship within it and its mean one."""
    for members in combinations(range(len(stock.tags)), order.size):
        pairs = [stock.kinship[a, b] for a, b in combinations(members, 2)]
        had = [order.had[at] for at in members] if order.had is not None else []
        if max([*pairs, *had, 0.0]) <= order.limit and fits(order, members):
            yield members, max(pairs, default=0.0), float(np.mean(pairs)) if pairs else 0.0


def best_by_trying(stock: SaleStock, orders: list[SetWanted]) -> tuple[list[bool], float, float]:
    """Who gets a set, the greatest kinship and the sum of the means: by trying every one."""
    best: tuple[list[int], float, float] | None = None

    def further(at: int, used: frozenset[int], got: list[int], most: float, total: float) -> None:
        nonlocal best
        if at == len(orders):
            key = ([-g for g in got], round(most, 12), round(total, 12))
            if best is None or key < best:
                best = key
            return
        for members, greatest, mean in allowed(stock, orders[at]):
            if not used & set(members):
                further(at + 1, used | set(members), [*got, 1], max(most, greatest), total + mean)
        further(at + 1, used, [*got, 0], most, total)

    further(0, frozenset(), [], 0.0, 0.0)
    assert best is not None
    return [g == -1 for g in best[0]], best[1], best[2]


def within(stock: SaleStock, found: SetFound) -> tuple[float, float]:
    """The greatest and the mean kinship of the pairs of a set."""
    pairs = [stock.kinship[a, b] for a, b in combinations(found.members, 2)]
    return max(pairs, default=0.0), float(np.mean(pairs)) if pairs else 0.0


@pytest.mark.parametrize("seed", range(25))
def test_no_other_sets_are_better_by_trying_all(seed: int) -> None:
    """As many orders as can, then the least greatest kinship, then the least sum of means."""
    stock = herd(seed, animals=7, families=4)
    orders = orders_of(seed, stock, count=2)
    got, most, total = best_by_trying(stock, orders)
    found = best_sets(stock, orders, seconds=10, clock=monotonic)
    assert found.proven
    assert [each is not None for each in found.sets] == got
    kin = [within(stock, each) for each in found.sets if each is not None]
    assert max((k[0] for k in kin), default=0.0) == pytest.approx(most)
    assert sum(k[1] for k in kin) == pytest.approx(total, abs=1e-7)
    members = [at for each in found.sets if each is not None for at in each.members]
    assert len(members) == len(set(members))
    for order, each in zip(orders, found.sets, strict=True):
        assert each is None or fits(order, each.members)


@pytest.mark.parametrize("seed", range(10))
def test_the_sets_for_one_order_come_best_first_and_differ(seed: int) -> None:
    """The first is the best there is; each that follows is no better."""
    stock = herd(seed, animals=8, families=5)
    order = orders_of(seed, stock, count=1)[0]
    every = sorted((most, mean) for _, most, mean in allowed(stock, order))
    found = sets_for(stock, order, most=3, seconds=10, clock=monotonic)
    keys = [within(stock, each) for each in found.sets if each is not None]
    assert bool(keys) == bool(every)
    if keys:
        assert keys[0] == pytest.approx(every[0])
        assert all(a <= (b[0] + 1e-9, b[1] + 1e-9) for a, b in pairwise(keys))
        assert len({tuple(sorted(each.members)) for each in found.sets if each}) == len(keys)


def test_full_sibs_are_one_class_and_the_first_of_them_is_taken() -> None:
    """Two of a litter of nine: no solver has to tell the nine apart."""
    kinship: Floats = np.full((9, 9), 0.25)
    would_do: Bools = np.ones((1, 9), dtype=bool)
    stock = SaleStock(tuple("ABCDEFGHI"), kinship, ("L",) * 9, ("",) * 9)
    found = sets_for(stock, SetWanted((2,), would_do), most=3, seconds=5, clock=monotonic)
    assert [each.members for each in found.sets if each] == [(0, 1)]
    assert found.sets[0] is not None
    assert found.sets[0].greatest_kinship == 0.25


def test_who_is_too_related_to_what_the_buyer_has_is_not_in_a_set() -> None:
    """The limit holds for the animals of earlier orders too."""
    stock = SaleStock(("A", "B"), np.zeros((2, 2)), ("a", "b"), ("", ""))
    order = SetWanted((1,), np.ones((1, 2), dtype=bool), 0.0, np.array([0.125, 0.0]))
    found = best_sets(stock, [order], seconds=5, clock=monotonic)
    assert [each.members for each in found.sets if each] == [(1,)]


def test_nobody_is_no_set() -> None:
    """Without any animal that would do there is none, and that is proved."""
    stock = SaleStock((), np.zeros((0, 0)), (), ())
    order = SetWanted((1,), np.zeros((1, 0), dtype=bool))
    assert best_sets(stock, [order], seconds=5, clock=monotonic).sets == (None,)
