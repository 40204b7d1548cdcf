"""What may be offered: the least related sets, what comes instead, and what may be promised."""

from collections.abc import Iterator
from datetime import timedelta
from itertools import combinations

import pytest
from sale_house import SaleHouse, sale_house

from colony.acts.orders.handing import close_order
from colony.acts.orders.messages import availability_message, available_pups, order_message
from colony.acts.orders.offers import fill, offer
from colony.acts.orders.prices import set_price
from colony.acts.orders.promises import promises
from colony.acts.pedigree.kinship import kinship_grid, kinship_of
from colony.refusals.orders import WantsNobody


@pytest.fixture
def house(begun_location: str) -> Iterator[SaleHouse]:
    """A house with two buyers and no order."""
    found = sale_house(begun_location)
    found.buyer("Anna Pond")
    found.buyer("Ben Lake")
    yield found
    found.book.close()


def test_an_unrelated_pair_is_of_two_families(house: SaleHouse) -> None:
    """Alma's and Ella's pups are half sibs; only with Cora's is there no kinship."""
    house.order("1F1M leopoldi, 15cm, unrelated, 300 each")
    found = house.ask(offer, order="1", today=house.today)
    assert (found.order, found.proven, found.instead) == (1, True, None)
    assert len(found.sets) == 3
    for each in found.sets:
        one, other = each.tags
        assert house.ask(kinship_of, one=one, other=other).kinship == 0
        assert (each.greatest_kinship, each.mean_kinship, each.price) == (0, 0, 600)
        assert each.ready_on == house.today


def test_the_offer_is_the_least_related_of_all_sets_by_trying(house: SaleHouse) -> None:
    """Three that must come from three families: kinship as the grid of the pedigree has it."""
    house.order("3 leopoldi")
    tags = [pup.tag for pup in house.ask(available_pups, today=house.today)]
    grid = house.ask(kinship_grid, tags=tags)
    kin = dict(
        zip(grid.tags, (dict(zip(grid.tags, row, strict=True)) for row in grid.rows), strict=True)
    )
    every = [
        (
            max(kin[a][b] for a, b in combinations(three, 2)),
            sum(kin[a][b] for a, b in combinations(three, 2)) / 3,
        )
        for three in combinations(tags, 3)
    ]
    best = house.ask(offer, order="1", today=house.today).sets[0]
    assert (best.greatest_kinship, best.mean_kinship) == pytest.approx(min(every), abs=1e-6)


def test_what_the_buyer_has_already_counts(house: SaleHouse) -> None:
    """Who bought of Alma and Bruno is offered only what is no kin of them."""
    house.order("1F leopoldi")
    house.keep("1", "25-01-1")
    house.do(close_order, order="1", on=house.today, today=house.today)
    house.order("1M leopoldi, unrelated")
    found = house.ask(offer, order="2", today=house.today)
    assert {tag[:5] for each in found.sets for tag in each.tags} == {"25-02"}


def test_where_nothing_is_good_enough_it_says_what_is_nearest(house: SaleHouse) -> None:
    """Three unrelated are not here: the least related are, and Dora bears soon of a new male."""
    house.order("3 leopoldi, unrelated")
    found = house.ask(offer, order="1", today=house.today)
    assert found.sets == []
    assert "Least related are" in (found.instead or "")
    assert "at kinship 0.125" in (found.instead or "")
    house.female("Dora")
    house.male("Fritz")
    house.pair("Dora", "Fritz", on="120d ago")
    house.sign("Dora", on="110d ago")
    found = house.ask(offer, order="1", today=house.today)
    assert "Dora's next litter would be at 0, ready about" in (found.instead or "")


def test_pups_that_are_ready_later_are_offered_for_later(house: SaleHouse) -> None:
    """By the day of the order, or of the question; else it says who will do, and when."""
    for tag in ("25-01-1", "25-01-2", "25-02-1", "25-02-2", "25-03-1", "25-03-2"):
        house.end(tag)
    young = house.litter("Cora", "2F", sires="Dino", born="10d ago", tank="B1").pups
    house.order("1F leopoldi")
    found = house.ask(offer, order="1", today=house.today)
    assert found.sets == []
    assert "By then there are 0 of 1 F" in (found.instead or "")
    assert f"{young[0]} would do, ready about" in (found.instead or "")
    later = house.ask(offer, order="1", by=house.today + timedelta(days=700), today=house.today)
    assert later.sets[0].tags == [young[0]]
    assert later.sets[0].ready_on is not None
    assert later.sets[0].ready_on > house.today


def test_all_orders_are_filled_at_once_and_no_animal_twice(house: SaleHouse) -> None:
    """The deposit is served first where there are too few females."""
    house.order("4F leopoldi")
    house.order("3F leopoldi", buyer="Ben", deposit="50")
    house.order("1M leopoldi", buyer="Ben")
    found = house.ask(fill, today=house.today)
    assert [(each.order, bool(each.sets)) for each in found] == [(2, True), (1, False), (3, True)]
    tags = [tag for each in found for one in each.sets for tag in one.tags]
    assert len(tags) == len(set(tags)) == 4
    assert found[1].instead


def test_kept_animals_are_offered_to_nobody_and_only_the_rest_is_sought(house: SaleHouse) -> None:
    """Beside what is kept already: the second of an unrelated pair is no kin of the first."""
    house.order("1F1M leopoldi, unrelated")
    house.order("6F leopoldi", buyer="Ben")
    house.keep("1", "25-01-1")
    assert house.ask(offer, order="2", today=house.today).sets == []
    sets = house.ask(offer, order="1", today=house.today).sets
    assert [tag[:5] for each in sets for tag in each.tags] == ["25-02"]
    house.keep("1", "25-02-3")
    assert house.ask(offer, order="1", today=house.today).instead == "All that it asks for is kept."
    assert [each.order for each in house.ask(fill, today=house.today)] == [2]


def test_an_order_made_of_a_name_says_not_what_it_wants(house: SaleHouse) -> None:
    """Nothing can be offered for it until somebody says."""
    house.edit("25-01-1", reserved_for="Carla")
    with pytest.raises(WantsNobody):
        house.ask(offer, order="1", today=house.today)


def test_a_promise_leaves_out_what_is_kept_and_counts_what_is_asked_for(house: SaleHouse) -> None:
    """Six females and six males are ready: kept ones are gone from it, wanted ones from what is free."""
    house.order("2F leopoldi", needed_by=house.today + timedelta(days=10))
    house.keep("1", "25-01-1")
    lines = {(p.sex, p.week): p for p in house.ask(promises, weeks=3, today=house.today)}
    assert (lines["F", 1].sure, lines["F", 1].promised, lines["F", 1].free) == (5, 0, 5)
    assert (lines["F", 2].sure, lines["F", 2].promised, lines["F", 2].free) == (5, 1, 4)
    assert lines["M", 3].sure == 6
    assert lines["F", 1].until == house.today + timedelta(days=6)


def test_more_than_will_surely_be_there_is_asked_for_with_a_word(house: SaleHouse) -> None:
    """Six females are sure: the seventh is told of, and written all the same."""
    soon = house.today + timedelta(days=20)
    assert house.order("6F leopoldi", needed_by=soon).warnings == ()
    page = house.order("1F leopoldi", buyer="Ben", needed_by=soon)
    assert page.warnings == (f"7 leopoldi F are asked for by {soon}, and 6 will surely be free.",)


def test_a_litter_to_come_is_in_the_promise_of_later_weeks(house: SaleHouse) -> None:
    """Nobody is sure of it, and some of it is likely."""
    before = house.ask(promises, weeks=60, today=house.today)[59]
    house.female("Dora")
    house.male("Fritz")
    house.pair("Dora", "Fritz", on="120d ago")
    house.found("Dora", "pregnant")
    after = house.ask(promises, weeks=60, today=house.today)[59]
    assert (before.sex, after.sex, before.week) == ("F", "F", 60)
    assert after.likely > before.likely
    assert after.sure <= after.likely


def test_the_buyer_reads_animals_parents_and_kinship_in_words(house: SaleHouse) -> None:
    """In the units of the house, with the price and the usual cautions; nothing is sent."""
    house.do(
        set_price, amount="280", facts={"species": "leopoldi"}, on=house.today, today=house.today
    )
    house.order("1F1M leopoldi, unrelated")
    text = house.ask(order_message, order="1", today=house.today)
    assert "Order 1, Anna Pond: this is what we can offer" in text
    assert "female leopoldi, 19 cm wide, from " in text
    assert "EUR 280.00" in text
    assert "as far as their pedigrees reach (1.0 generations)" in text
    assert "permit office" in text
    house.keep("1", "25-01-1", "25-01-3")
    text = house.ask(order_message, order="1", today=house.today)
    assert "these are kept for you until" in text
    assert "full sibs" in text
    assert "Still owed: EUR 560.00" in text


def test_the_list_of_what_is_free_leaves_out_what_is_kept(house: SaleHouse) -> None:
    """By species and sex, as text to copy."""
    house.order("1F leopoldi")
    house.keep("1", "25-01-1")
    found = house.ask(available_pups, sex="F", today=house.today)
    assert len(found) == 5
    assert "25-01-1" not in {pup.tag for pup in found}
    assert availability_message(found).count("\n- ") == 5
    assert availability_message([]) == "No pup is ready and free today."
