"""Every order with all that happened to it, as values."""

from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from typing import NamedTuple

from sqlalchemy import select
from sqlmodel import Session, col

from colony.planning.orders.states import CANCELLED, OPEN, state_of
from colony.planning.orders.wanted import (
    ForSale,
    Money,
    PriceLine,
    WantLine,
    agreed,
    price_of,
    price_of_all,
)
from colony.records import Buyer, Order, Person
from colony.store.readers.orders.details import (
    EventRow,
    PaymentRow,
    ShipmentRow,
    Went,
    read_animals_of,
    read_events,
    read_payments,
    read_prices,
    read_shipments,
    read_wants,
)
from colony.store.readers.rows import read_rows

NAMELESS = "forgotten"
"""What stands for a buyer whose name was taken out."""


class OrderHead(NamedTuple):
    """What an order says of itself, and of its buyer."""

    id: int
    code: str
    buyer_id: int
    buyer_code: str
    name: str | None
    country: str | None
    asked_on: date
    needed_by: date | None
    kinship: float | None
    currency: str
    note: str | None


@dataclass(frozen=True)
class OrderRow:
    """One order as a whole: what is asked, what is kept or went, what happened, what is paid.

    `animals` are those kept for it now, or those that went with it.
    """

    head: OrderHead
    wants: tuple[WantLine, ...]
    events: tuple[EventRow, ...]
    animals: tuple[ForSale, ...]
    kept_until: date | None
    payments: tuple[PaymentRow, ...]
    shipment: ShipmentRow | None
    prices: Mapping[str, int | None]
    money: Money

    @property
    def code(self) -> str:
        """Its number."""
        return self.head.code

    @property
    def buyer(self) -> str:
        """Who asked, by name; a forgotten one by code."""
        return self.head.name or f"{NAMELESS} ({self.head.buyer_code})"

    @property
    def currency(self) -> str:
        """The ISO 4217 code of its money."""
        return self.head.currency

    @property
    def state(self) -> str:
        """The state that its events lead to; what ran out is not reserved any more."""
        state = state_of(event.event for event in self.events)
        return "asked" if state in {"reserved", "paid"} and not self.animals else state

    @property
    def is_open(self) -> bool:
        """Whether the buyer still waits for animals."""
        return self.state in OPEN

    @property
    def tags(self) -> list[str]:
        """The tags of its animals."""
        return [animal.tag for animal in self.animals]

    @property
    def has_deposit(self) -> bool:
        """Whether anything was paid: such orders come first."""
        return self.money.paid > 0


def read_orders(session: Session, today: date, *, code: str | None = None) -> list[OrderRow]:
    """Every order, or one, in the order in which they were written."""
    only = () if code is None else (col(Order.code) == code,)
    query = (
        select(
            *(
                getattr(table, name)
                for table, name in (
                    (Order, "id"),
                    (Order, "code"),
                    (Order, "buyer_id"),
                    (Buyer, "code"),
                    (Person, "name"),
                    (Buyer, "country"),
                    (Order, "asked_on"),
                    (Order, "needed_by"),
                    (Order, "kinship"),
                    (Order, "currency"),
                    (Order, "note"),
                )
            )
        )
        .join(Buyer, col(Order.buyer_id) == col(Buyer.id))
        .join(Person, col(Buyer.person_id) == col(Person.id), isouter=True)
        .where(*only)
        .order_by(col(Order.id))
    )
    heads = [OrderHead(*row) for row in read_rows(session, query)]
    if not heads:
        return []
    wants, events, payments = read_wants(session), read_events(session), read_payments(session)
    went, shipments = read_animals_of(session, today), read_shipments(session)
    prices = read_prices(session)
    return [
        _order(
            head,
            wants[head.id],
            events[head.id],
            payments[head.id],
            went[head.id],
            shipments.get(head.id),
            prices,
            today,
        )
        for head in heads
    ]


def _order(  # noqa: PLR0913, PLR0917 - each is one part of it
    head: OrderHead,
    wants: Sequence[WantLine],
    events: Sequence[EventRow],
    payments: Sequence[PaymentRow],
    went: Sequence[Went],
    shipment: ShipmentRow | None,
    prices: Sequence[PriceLine],
    today: date,
) -> OrderRow:
    state = state_of(event.event for event in events)
    kept = [] if state == CANCELLED else [w for w in went if w.kept or state not in OPEN]
    animals = tuple(each.animal for each in kept)
    day = max((event.on for event in events if event.event == "reserved"), default=today)
    listed = {animal.tag: price_of(animal, prices, day) for animal in animals}
    return OrderRow(
        head,
        wants=tuple(wants),
        events=tuple(events),
        animals=animals,
        kept_until=min((each.until for each in kept if each.until), default=None),
        payments=tuple(payments),
        shipment=shipment,
        prices=agreed(wants, animals, listed),
        money=_money(price_of_all(wants, animals, listed), payments),
    )


def _money(price: int | None, payments: Sequence[PaymentRow]) -> Money:
    total: dict[str, int] = defaultdict(int)
    for payment in payments:
        total[payment.kind] += payment.amount_minor
    paid = total["deposit"] + total["payment"] - total["refund"]
    return Money(price, total["deposit"], paid, total["discount"])
