"""What an order comes to: prices by the list, by agreement, and what is owed."""

from datetime import date

import pytest

from colony.planning.orders.wanted import (
    ForSale,
    Money,
    PriceLine,
    WantLine,
    agreed,
    is_of,
    price_of,
    price_of_all,
)

DAY = date(2026, 3, 9)
PUP = ForSale("P1", "F", "motoro", "Pearl", 135)
LIST = (
    PriceLine(100, date(2026, 1, 1)),
    PriceLine(200, date(2026, 1, 1), species="motoro"),
    PriceLine(260, date(2026, 1, 1), species="motoro", sex="F"),
    PriceLine(300, date(2026, 1, 1), species="motoro", sex="F", from_width_mm=130),
    PriceLine(999, date(2026, 1, 1), species="motoro", sex="F", from_width_mm=150),
    PriceLine(
        280, date(2026, 2, 1), date(2026, 2, 28), species="motoro", sex="F", from_width_mm=130
    ),
)


@pytest.mark.parametrize(
    ("line", "fits"),
    [
        (WantLine("U", 1), True),
        (WantLine("F", 1, "motoro"), True),
        (WantLine("F", 1, line="pearl"), True),
        (WantLine("M", 1, "motoro"), False),
        (WantLine("F", 1, "leopoldi"), False),
        (WantLine("F", 1, line="Black"), False),
    ],
)
def test_who_is_of_the_sex_and_kind_of_a_want(line: WantLine, *, fits: bool) -> None:
    """Any sex answers U; a line is told whatever its case."""
    assert is_of(line, PUP) is fits


def test_the_price_that_says_most_holds_on_its_days() -> None:
    """A price of the animal itself before any of its kind, a wider class before a narrower."""
    assert price_of(PUP, LIST, DAY) == 300
    assert price_of(PUP, LIST, date(2026, 2, 10)) == 280
    assert price_of(PUP, [*LIST, PriceLine(50, DAY, tag="P1")], DAY) == 50
    assert price_of(ForSale("P2", "M", "motoro"), LIST, DAY) == 200
    assert price_of(ForSale("P3", "M", "henlei"), LIST, DAY) == 100
    assert price_of(PUP, LIST, date(2025, 12, 31)) is None


def test_an_agreed_price_comes_before_the_list_for_as_many_as_were_asked_for() -> None:
    """The third female of an order for two costs what the list says."""
    wants = (WantLine("F", 2, "motoro", price_minor=70), WantLine("M", 1))
    animals = [ForSale(f"F{n}", "F", "motoro") for n in range(3)] + [ForSale("M1", "M", "motoro")]
    listed = {animal.tag: 90 for animal in animals}
    assert agreed(wants, animals, listed) == {"F0": 70, "F1": 70, "F2": 90, "M1": 90}
    assert price_of_all(wants, animals, listed) == 320
    assert price_of_all((wants[0],), [], {}) == 140
    assert price_of_all(wants, [], {}) is None


def test_what_is_owed_is_never_less_than_nothing() -> None:
    """Money and discounts count together; without a price nobody knows."""
    assert Money(500, deposit=100, paid=100, discount=50).owed == 350
    assert Money(500, deposit=0, paid=600, discount=0).owed == 0
    assert Money(None, deposit=0, paid=0, discount=0).owed is None
