"""Buyers: found by name, kept beside the journal, and taken out of it for good."""

from collections.abc import Iterator

import pytest
from farm import Farm
from sale_house import SaleHouse, sale_house

from colony.acts.book.check import check_book
from colony.acts.book.undo import undo_last
from colony.acts.orders.buyers import (
    add_buyer,
    edit_buyer,
    end_buyer,
    find_buyer,
    forget_buyer,
    list_buyers,
)
from colony.acts.orders.handing import cancel_order, close_order
from colony.acts.orders.orders import list_orders
from colony.acts.orders.payments import pay
from colony.refusals.base import Refusal
from colony.refusals.orders import (
    BuyerAlreadyEnded,
    BuyerEnded,
    BuyerForgotten,
    BuyerTaken,
    BuyerWaits,
    NoSuchBuyer,
    SeveralBuyers,
)

WHO = "Zyxwv Qpon"


@pytest.fixture
def house(begun_location: str) -> Iterator[SaleHouse]:
    """A house with two buyers."""
    found = sale_house(begun_location)
    found.buyer("Anna Pond", contact="anna@pond.example", country="DE", papers="permit 7")
    found.buyer("Ann Lake", kind="shop")
    yield found
    found.book.close()


def test_a_buyer_is_found_by_name_beginning_or_code(house: SaleHouse) -> None:
    """Where one alone answers to it; the nearest are named where nobody does."""
    for name in ("Anna Pond", "anna", "buyer-1", " ANNA  pond "):
        assert house.ask(find_buyer, name=name).buyer == "buyer-1"
    with pytest.raises(SeveralBuyers, match="buyer-1 or buyer-2"):
        house.ask(find_buyer, name="ann")
    with pytest.raises(NoSuchBuyer, match="did you mean Anna Pond"):
        house.ask(find_buyer, name="Anna Pont")
    with pytest.raises(BuyerTaken, match="buyer-1"):
        house.buyer("anna pond")


def test_a_fact_is_corrected_and_cleared_and_that_can_be_taken_back(house: SaleHouse) -> None:
    """What was said before comes back whole, although the journal never had it."""
    house.do(edit_buyer, buyer="Anna", name="Anna Brook", facts={"contact": "", "country": "AT"})
    row = house.ask(find_buyer, name="Anna")
    assert (row.name, row.contact, row.country, row.papers) == (
        "Anna Brook",
        None,
        "AT",
        "permit 7",
    )
    with house.book.act("book undo") as session:
        undo_last(session)
    row = house.ask(find_buyer, name="Anna")
    assert (row.name, row.contact, row.country) == ("Anna Pond", "anna@pond.example", "DE")
    assert house.ask(check_book, today=house.today) == []


def test_nothing_personal_stands_in_the_journal(house: SaleHouse) -> None:
    """A salted digest does: nobody finds the name by trying names."""
    house.buyer(WHO, contact=f"{WHO}@x", note=WHO, address=WHO, papers=WHO)
    house.order("1F leopoldi", buyer=WHO)
    house.keep("1", "25-01-1")
    house.edit("25-02-1", reserved_for=WHO)
    told = str(house.rows("SELECT * FROM journal")) + str(house.rows("SELECT * FROM journal_place"))
    assert WHO not in told
    assert "person_digest" in told


def test_who_is_forgotten_is_in_no_table_and_the_sale_stays(house: SaleHouse) -> None:
    """Neither in the file at all, once the book is written small again; the chain holds."""
    house.buyer(WHO, contact=f"{WHO}@x")
    house.do(edit_buyer, buyer=WHO, facts={"note": f"{WHO} again"})
    house.order("1F leopoldi, 300 each", buyer=WHO)
    house.keep("1", "25-01-1")
    house.do(pay, order="1", amount="300", on=house.today, today=house.today)
    with pytest.raises(BuyerWaits, match="order 1"):
        house.do(forget_buyer, buyer=WHO, today=house.today)
    house.do(close_order, order="1", on=house.today, today=house.today)
    row = house.do(forget_buyer, buyer=WHO, today=house.today)
    assert (row.name, row.contact, row.forgotten_on) == (None, None, house.today)
    assert WHO not in str(house.written())
    (page,) = house.ask(list_orders, today=house.today)
    assert (page.buyer, page.paid, page.tags) == ("forgotten (buyer-3)", 300, ["25-01-1"])
    assert house.ask(check_book, today=house.today) == []
    with pytest.raises(BuyerForgotten):
        house.do(edit_buyer, buyer="buyer-3", name="Back")
    with pytest.raises(BuyerForgotten):
        house.order("1F", buyer="buyer-3")


def test_the_file_does_not_keep_who_was_forgotten(farm_file: Farm) -> None:
    """Not in a page that is free either, once the book is closed."""
    facts = {"contact": f"{WHO}@x", "note": "long " * 200 + WHO}
    farm_file.do(add_buyer, name=WHO, facts=facts)
    farm_file.do(edit_buyer, buyer=WHO, facts={"address": WHO})
    farm_file.book.close()
    assert WHO.encode() in farm_file.path.read_bytes()
    again = Farm(farm_file.path)
    again.do(forget_buyer, buyer=WHO, today=again.today)
    again.book.close()
    files = [path.read_bytes() for path in farm_file.path.parent.glob("farm.colony*")]
    assert not any(WHO.encode() in content for content in files)


def test_what_was_forgotten_does_not_come_back_by_an_undo(house: SaleHouse) -> None:
    """The undo is refused in a sentence, and nothing is written."""
    house.do(forget_buyer, buyer="Anna", today=house.today)
    before = house.written()
    with pytest.raises(Refusal, match="forgot"), house.book.act("book undo") as session:
        undo_last(session)
    assert house.written() == before


def test_a_buyer_is_ended_and_comes_back(house: SaleHouse) -> None:
    """Nobody is sold to meanwhile; who waits for animals is not ended."""
    house.order("1F leopoldi")
    with pytest.raises(BuyerWaits):
        house.do(end_buyer, buyer="Anna", on=house.today, today=house.today)
    house.do(cancel_order, order="1", on=house.today, today=house.today)
    house.do(end_buyer, buyer="Anna", on=house.today, today=house.today)
    assert [row.name for row in house.ask(list_buyers)] == ["Ann Lake"]
    assert len(house.ask(list_buyers, ended_too=True)) == 2
    with pytest.raises(BuyerAlreadyEnded):
        house.do(end_buyer, buyer="Anna", on=house.today, today=house.today)
    with pytest.raises(BuyerEnded):
        house.order("1F leopoldi")
    house.do(edit_buyer, buyer="Anna", back=True)
    assert house.order("1F leopoldi").order == 2


def test_a_code_is_not_given_twice(house: SaleHouse) -> None:
    """Also where a buyer was taken back again: papers may name the code."""
    house.do(add_buyer, name="Third")
    with house.book.act("book undo") as session:
        undo_last(session)
    assert house.do(add_buyer, name="Fourth").buyer == "buyer-4"
