"""What the check finds of orders that no act writes."""

from collections.abc import Iterator

import pytest
from sale_house import SaleHouse, sale_house

from colony.acts.book.check import check_book


@pytest.fixture
def house(begun_location: str) -> Iterator[SaleHouse]:
    """A house with a pair kept for an order."""
    found = sale_house(begun_location)
    found.buyer("Anna Pond")
    found.order("1F1M leopoldi")
    found.order("1F leopoldi")
    found.keep("1", "25-01-1", "25-02-3")
    assert found.ask(check_book, today=found.today) == []
    yield found
    found.book.close()


@pytest.mark.parametrize(
    ("harm", "where", "problem"),
    [
        (
            "INSERT INTO reservation (id, order_id, animal_id, since) SELECT 99, 2, animal_id, since FROM reservation WHERE id = 1",
            "25-01-1",
            "is kept for orders 1 and 2",
        ),
        (
            "UPDATE animal SET status = 'gone', ended_on = '2026-03-09' WHERE tag = '25-01-1'",
            "25-01-1",
            "is gone and kept for order 1",
        ),
        (
            "INSERT INTO order_event (id, order_id, event, happened_on) VALUES (99, 2, 'closed', '2026-03-09')",
            "order 2",
            "was closed on 2026-03-09 when it was asked",
        ),
        ("UPDATE person SET name = 'Zed'", "buyer-1", "has another name or address"),
        ("DELETE FROM person", "buyer-1", "has no name any more"),
    ],
)
def test_what_no_act_writes_is_found(house: SaleHouse, harm: str, where: str, problem: str) -> None:
    """And named at its place, with what would put it right."""
    house.write(harm)
    findings = [each for each in house.ask(check_book, today=house.today) if each.check == "orders"]
    assert [(each.where, problem in each.problem) for each in findings] == [(where, True)]
    assert findings[0].remedies
