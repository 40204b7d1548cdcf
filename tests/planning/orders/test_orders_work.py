"""What orders ask for on a day."""

from dataclasses import replace
from datetime import date, timedelta

import pytest

from colony.planning.orders.work import OrderAtHand, order_work

TODAY = date(2026, 3, 9)
KEPT = OrderAtHand("3", "Anna", "reserved", ("P1", "P2"))


def day(days: int) -> date:
    """A day from today on."""
    return TODAY + timedelta(days=days)


@pytest.mark.parametrize(
    ("order", "asks"),
    [
        (KEPT, []),
        (replace(KEPT, kept_until=day(3)), ["kept no longer: P1, P2"]),
        (replace(KEPT, kept_until=day(4)), []),
        (replace(KEPT, needed_by=day(1)), []),
        (replace(KEPT, tags=(), state="asked", needed_by=day(14)), ["and nothing is kept"]),
        (
            replace(KEPT, tags=(), state="asked", needed_by=day(-1)),
            ["is over, and nothing is kept"],
        ),
        (replace(KEPT, tags=(), state="asked", needed_by=day(15)), []),
        (replace(KEPT, leaves_on=day(20), papers_until=day(19)), ["papers held until"]),
        (replace(KEPT, leaves_on=day(20), papers_until=day(20)), []),
        (replace(KEPT, state="closed", kept_until=day(0), leaves_on=day(0)), []),
    ],
)
def test_an_order_asks_for_what_is_near(order: OrderAtHand, asks: list[str]) -> None:
    """Ends, days, papers: each is told from its own number of days on."""
    found = [work.what for work in order_work([order], TODAY)]
    assert len(found) == len(asks)
    assert all(part in what for part, what in zip(asks, found, strict=True))


def test_the_work_before_a_journey_comes_on_its_days() -> None:
    """Seven days before the courier; the last meal and the boxes in the days before it leaves."""
    leaves = replace(KEPT, leaves_on=day(9))
    assert [w.what[19:36] for w in order_work([leaves], TODAY)] == [
        "book the courier,",
        "papers and permit",
    ]
    last = order_work([replace(KEPT, leaves_on=day(1))], TODAY)
    assert [work.on for work in last] == [day(0), day(1)]
    assert "boxes and bags" in last[0].what
    assert "pack" in last[1].what


def test_the_first_day_comes_first() -> None:
    """Then by the number of the order, as a number."""
    orders = [replace(KEPT, order=number, kept_until=day(2)) for number in ("10", "9")]
    early = replace(KEPT, order="12", kept_until=day(1))
    assert [work.order for work in order_work([*orders, early], TODAY)] == ["12", "9", "10"]
