"""What an order asks of the breeder on a day: to pack, to prolong, to answer."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from colony.planning.orders.shipping import STEPS
from colony.planning.orders.states import OPEN

SOON_DAYS = 3
"""How far ahead an end, or work before a journey, is news."""

NEEDED_DAYS = 14
"""How far ahead the last day of an order with nothing kept for it is news."""


@dataclass(frozen=True)
class OrderAtHand:
    """An order as the day sees it; `papers_until` is the last day of its buyer's papers."""

    order: str
    buyer: str
    state: str
    tags: Sequence[str] = ()
    kept_until: date | None = None
    needed_by: date | None = None
    leaves_on: date | None = None
    papers_until: date | None = None


@dataclass(frozen=True)
class OrderWork:
    """One thing to do for an order, and by when."""

    order: str
    buyer: str
    what: str
    on: date


def order_work(orders: Iterable[OrderAtHand], today: date) -> list[OrderWork]:
    """What orders ask for today and in the next days, the first first."""
    found = [
        OrderWork(each.order, each.buyer, what, on)
        for each in orders
        for on, what in _asks(each, today)
    ]
    return sorted(found, key=lambda work: (work.on, int(work.order), work.what))


def _asks(order: OrderAtHand, today: date) -> Iterable[tuple[date, str]]:
    soon = today + timedelta(days=SOON_DAYS)
    if order.state not in OPEN:
        return
    if order.leaves_on is not None and order.tags and order.leaves_on >= today:
        for days, what in STEPS:
            on = order.leaves_on - timedelta(days=days)
            if today <= on <= soon:
                yield on, f"leaves {order.leaves_on}: {what}"
    if order.kept_until is not None and order.kept_until <= soon:
        yield order.kept_until, f"kept no longer: {', '.join(order.tags)}"
    near = today + timedelta(days=NEEDED_DAYS)
    if order.needed_by is not None and not order.tags and order.needed_by <= near:
        late = "is over, and nothing is kept" if order.needed_by < today else "and nothing is kept"
        yield order.needed_by, f"wanted by {order.needed_by} {late}"
    if order.papers_until is not None and order.papers_until < (order.leaves_on or today):
        yield today, f"the buyer's papers held until {order.papers_until}"
