"""Which animals are one class, and what an order is as rows of a model."""

import numpy as np
import pytest

from colony.planning.orders.set_model import SaleStock, SetWanted, classes_of, model_of
from colony.planning.solver.highs import solve

ANY = np.ones((1, 4), dtype=bool)


def stock(*families: str, rank: tuple[object, ...] = ()) -> SaleStock:
    """Animals of families: 1/4 within one, 0 between two."""
    names = np.array(families)
    kinship = np.where(names[:, None] == names[None, :], 0.25, 0.0)
    np.fill_diagonal(kinship, 0.5)
    return SaleStock(tuple(families), kinship, families, rank or ("",) * len(families))


def test_full_sibs_of_one_rank_are_one_class() -> None:
    """Another sex, price or day is another class; the diagonal is the kinship of two of it."""
    found = classes_of(stock("a", "a", "b", "a"), [SetWanted((1,), ANY)])
    assert found.of == ((0, 1, 3), (2,))
    assert found.sizes.tolist() == [3, 1]
    assert found.kinship.tolist() == [[0.25, 0.0], [0.0, 0.0]]
    apart = stock("a", "a", "b", "a", rank=("F", "M", "F", "F"))
    assert classes_of(apart, [SetWanted((1,), ANY)]).of == ((0, 3), (1,), (2,))


def test_sibs_that_are_not_related_alike_are_told_apart() -> None:
    """A pup of a litter whose sire is another by a test is a class of its own."""
    herd = stock("a", "a", "a", "b")
    herd.kinship[2, :2] = herd.kinship[:2, 2] = 0.125
    assert classes_of(herd, [SetWanted((1,), ANY)]).of == ((0, 1), (2,), (3,))


def test_who_would_do_for_no_order_is_in_no_class() -> None:
    """And orders that take sibs differently part them."""
    would_do = np.array([[True, True, False, False]])
    other = np.array([[True, False, False, False]])
    herd = stock("a", "a", "b", "b")
    assert classes_of(herd, [SetWanted((1,), would_do)]).of == ((0, 1),)
    assert classes_of(herd, [SetWanted((1,), would_do), SetWanted((1,), other)]).of == ((0,), (1,))


@pytest.mark.parametrize(
    ("wanted", "limit", "possible"),
    [(2, 0.25, True), (2, 0.1, True), (3, 0.1, False), (4, 0.25, True)],
)
def test_a_limit_leaves_one_of_each_family(wanted: int, limit: float, *, possible: bool) -> None:
    """Two families give two unrelated animals and no third."""
    herd, order = stock("a", "a", "b", "b"), SetWanted((wanted,), ANY)
    model, _ = model_of(classes_of(herd, [order]), [order], limit, ())
    assert (solve(model, seconds=5, nodes=1000).values is not None) is possible


def test_no_animal_is_given_twice() -> None:
    """Two orders for three of four animals cannot both be served."""
    order = SetWanted((3,), ANY)
    herd = stock("a", "b", "c", "d")
    model, _ = model_of(classes_of(herd, [order]), [order, order], 1.0, ())
    assert solve(model, seconds=5, nodes=1000).impossible


def test_the_cost_is_the_mean_kinship_of_the_pairs() -> None:
    """Three full sibs of four: each pair at 1/4, one unrelated in their place lowers it."""
    order = SetWanted((3,), ANY)
    classes = classes_of(stock("a", "a", "a", "b"), [order])
    model, blocks = model_of(classes, [order], 1.0, (), costs=True)
    found = solve(model, seconds=5, nodes=1000)
    assert found.values is not None
    assert blocks[0].whole_counts(found.values).tolist() == [2, 1]
    assert float(model.costs @ found.values) == pytest.approx(0.25 / 3)
