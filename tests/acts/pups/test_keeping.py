"""Whom to keep as breeders of the house: by the book, without writing in it."""

from collections.abc import Iterator
from itertools import combinations

import numpy as np
import pytest
from sale_house import SaleHouse, sale_house

from colony.acts.orders.prices import set_price
from colony.acts.pups.keep import PUP_YEARS, KeepPlan, plan_keeping
from colony.store.readers.pedigree import read_lineage


@pytest.fixture
def house(begun_location: str) -> Iterator[SaleHouse]:
    """Five unrelated breeders, and twelve pups of three litters."""
    found = sale_house(begun_location)
    found.do(set_price, amount="100", facts={"sex": "F"}, on=found.today, today=found.today)
    yield found
    found.book.close()


def plan(house: SaleHouse, **facts: object) -> KeepPlan:
    """Whom the book would keep."""
    found: KeepPlan = house.ask(plan_keeping, **{"slots": 2, **facts}, today=house.today)
    return found


def mean_to_come(house: SaleHouse, tags: tuple[str, ...]) -> float:
    """Mean kinship of the herd to come, spelled out: breeders of seven years, pups of ten."""
    with house.book.reading() as session:
        lineage = read_lineage(session)
    breeders = ("Alma", "Cora", "Ella", "Bruno", "Dino")
    ids = {row.tag: row.id for row in lineage.herd.rows}
    of = [ids[tag] for tag in (*breeders, *tags)]
    age = (house.today - lineage.herd.by_id(of[0]).birthday.first).days / 365.25  # type: ignore[union-attr] # born in 2019
    years = np.array([14 - age] * len(breeders) + [PUP_YEARS] * len(tags))
    return float(years @ lineage.kinship(of, of) @ years / years.sum() ** 2)


def test_the_choice_is_the_best_of_all_by_trying(house: SaleHouse) -> None:
    """Two of twelve, each choice reckoned by hand."""
    found = plan(house)
    tags = tuple(pup.tag for pup in found.keep)
    pups = [f"25-0{litter}-{n}" for litter in (1, 2, 3) for n in (1, 2, 3, 4)]
    best = min(mean_to_come(house, two) for two in combinations(pups, 2))
    assert mean_to_come(house, tags) == pytest.approx(best)
    assert found.mean_kinship.kept == pytest.approx(best)
    assert found.mean_kinship.without == pytest.approx(mean_to_come(house, ()))
    assert found.proven


def test_each_says_why_and_what_is_forgone(house: SaleHouse) -> None:
    """No breeder is a child of anybody here: every line is told."""
    for pup in plan(house).keep:
        assert "with the breeders; the pups have" in pup.why
        assert "no breeder is a child of" in pup.why
        assert pup.forgone == (100 if pup.sex == "F" else None)
    assert {pup.sex for pup in plan(house, cost_max=0).keep} <= {"M"}


def test_who_is_kept_already_reserved_or_held_is_not_chosen(house: SaleHouse) -> None:
    """One that is kept back counts as a breeder; a ban on breeding takes one out."""
    first = {pup.tag for pup in plan(house, slots=12).keep}
    assert first
    house.buyer()
    house.order("1 leopoldi")
    tag = min(first)
    house.keep("1", tag)
    house.edit("25-02-1", held_back=True)
    house.edit("25-02-2", breeding_ban="crooked")
    house.hold("25-02-3")
    again = {pup.tag for pup in plan(house, slots=12).keep}
    assert not {tag, "25-02-1", "25-02-2", "25-02-3"} & again


def test_without_pups_or_breeders_nobody_is_kept(house: SaleHouse) -> None:
    """Of a species that is not here."""
    assert plan(house, species="motoro").keep == []
