"""The breeding stock and the breeding tanks, as they are read for a plan."""

from math import pi

import numpy as np
import pytest
from farm import Farm

from colony.planning.pairings.request import BreedingTank, Stock
from colony.store.readers.pairings.stock import read_breeding_tanks, read_stock


def stock_of(farm: Farm, **asked: object) -> Stock:
    """The stock of a farm."""
    stock: Stock = farm.ask(read_stock, today=farm.today, **asked)
    return stock


def tags(stock: Stock) -> list[str]:
    """Who is in the stock."""
    return [animal.tag for animal in stock.animals]


def tanks_of(farm: Farm) -> dict[str, BreedingTank]:
    """The breeding tanks of a farm, by code."""
    with farm.book.reading() as session:
        stock = read_stock(session, today=farm.today)
        return {tank.code: tank for tank in read_breeding_tanks(session, stock, farm.today)}


def test_the_stock_is_who_is_here_and_who_is_named(farm: Farm) -> None:
    """The dead and the sold are read only when asked about by name; a species alone if asked."""
    farm.female("Alma")
    farm.male("Bruno")
    farm.female("Mira", species="motoro")
    farm.end("Bruno")
    assert tags(stock_of(farm)) == ["Alma", "Mira"]
    assert tags(stock_of(farm, named=frozenset({"Bruno"}))) == ["Alma", "Bruno", "Mira"]
    assert tags(stock_of(farm, species="motoro")) == ["Mira"]
    assert stock_of(farm, species="henlei").kinship.shape == (0, 0)


def test_kinship_stands_in_the_order_of_the_animals(farm: Farm) -> None:
    """Own kinship (1 + F) / 2, parent and offspring 1/4 (Wright 1922)."""
    farm.female("Alma")
    farm.male("Bruno")
    farm.female("Gala", born="2022", dam="Alma", sires="Bruno")
    stock = stock_of(farm)
    expected = np.array([[0.5, 0.0, 0.25], [0.0, 0.5, 0.25], [0.25, 0.25, 0.5]])
    assert tags(stock) == ["Alma", "Bruno", "Gala"]
    np.testing.assert_allclose(stock.kinship, expected, atol=1e-12)
    assert stock.worst_kinship is None
    assert stock.rare is None


def test_the_worst_kinship_is_that_of_the_likeliest_harm(farm: Farm) -> None:
    """One of two sires: expected 0.125 with either, at worst 0.25, by enumerating both."""
    farm.female("Alma")
    for tag in ("Bruno", "Dino"):
        farm.male(tag)
    farm.female("Gala", born="2022", dam="Alma", sires=["Bruno=0.5", "Dino=0.5"])
    stock = stock_of(farm, at_worst=True)
    assert stock.worst_kinship is not None
    gala = tags(stock).index("Gala")
    np.testing.assert_allclose(stock.kinship[gala], [0.25, 0.125, 0.125, 0.5], atol=1e-12)
    np.testing.assert_allclose(stock.worst_kinship[gala], [0.25, 0.25, 0.25, 0.5], atol=1e-12)
    np.testing.assert_allclose(stock.worst_kinship, stock.worst_kinship.T, atol=0)


def test_genes_of_a_founder_with_few_young_are_rare(farm: Farm) -> None:
    """Bruno has three young here and Dino one: equal founder shares are the aim (Lacy 1989)."""
    farm.female("Alma")
    for tag in ("Bruno", "Dino"):
        farm.male(tag)
    for tag, sire in (("Gala", "Bruno"), ("Gesa", "Bruno"), ("Gila", "Bruno"), ("Hera", "Dino")):
        farm.female(tag, born="2022", dam="Alma", sires=sire)
    for tag in ("Alma", "Bruno", "Dino"):
        farm.end(tag)
    stock = stock_of(farm, founders=True)
    assert stock.rare is not None
    rare = dict(zip(tags(stock), stock.rare.tolist(), strict=True))
    assert rare["Hera"] > rare["Gala"] == rare["Gesa"]


def test_homes_are_the_tanks_of_today(farm: Farm) -> None:
    """Who is in no tank has no home."""
    farm.tank("B1")
    farm.female("Alma", tank="B1")
    farm.male("Bruno")
    stock = stock_of(farm)
    assert [stock.home(row) for row in (0, 1)] == ["B1", None]


def test_only_breeding_tanks_are_offered(farm: Farm) -> None:
    """A nursery, a grow-out and a hospital tank are none."""
    for code, role in (
        ("B1", "breeding"),
        ("N1", "nursery"),
        ("G1", "grow-out"),
        ("H1", "hospital"),
    ):
        farm.tank(code, role=role)
    assert tanks_of(farm).keys() == {"B1"}


def test_a_tank_has_room_beside_the_young_that_stay(farm: Farm) -> None:
    """The house's share of the floor, less the discs of the young; the grown may be moved."""
    farm.tank("B1", size="400cm")
    farm.female("Alma", tank="B1", width="50cm")
    whole = tanks_of(farm)["B1"].room_mm2
    share = whole / 4000**2
    assert 0 < share < 1
    farm.female("Uta", born="2026", tank="B1", width="14cm")
    assert tanks_of(farm)["B1"].room_mm2 == pytest.approx(whole - pi / 4 * 140**2)


def test_a_tank_admits_no_disc_too_wide_for_its_sides(farm: Farm) -> None:
    """Width at least 2 x, length at least 4 x the disc (common practice, no source)."""
    farm.tank("B1", size="200cm")
    assert tanks_of(farm)["B1"].widest_mm == pytest.approx(min(2000 / 2, 2000 / 4))
