"""Orders: who asks for what by when, and how each of them stands."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date

from sqlmodel import Session, col, func, select

from colony.acts.animals.days import refuse_future
from colony.acts.orders.buyers import find_buyer, selling_to
from colony.acts.orders.wants import want_in_words, write_wants
from colony.notation.money import in_major, parse_amount
from colony.planning.orders.states import after, possible, state_of
from colony.records import Order, OrderEvent, OrderWant, Payment
from colony.refusals.animals import NothingToChange
from colony.refusals.orders import (
    NeededBeforeAsked,
    NoSuchOrder,
    NothingWanted,
    NotNowWithOrder,
)
from colony.store.journal.journal import tell
from colony.store.readers.orders.details import EventRow, PaymentRow, ShipmentRow
from colony.store.readers.orders.orders import OrderRow, read_orders
from colony.store.settings import read_settings


@dataclass(frozen=True)
class OrderPage:
    """One order for a list or a page; money in the unit that is spoken of, by `currency`."""

    order: int
    buyer: str
    state: str
    want: str
    by: date | None
    tags: list[str]
    deposit: int | float
    owed: int | float | None
    price: int | float | None
    paid: int | float
    currency: str
    asked_on: date
    kept_until: date | None
    kinship: float | None
    note: str | None
    warnings: tuple[str, ...] = ()


@dataclass(frozen=True)
class OrderHistory:
    """An order with all that happened to it."""

    page: OrderPage
    events: tuple[EventRow, ...]
    payments: tuple[PaymentRow, ...]
    shipment: ShipmentRow | None


def add_order(
    session: Session,
    *,
    buyer: str,
    wants: Sequence[str],
    needed_by: date | None = None,
    deposit: str | None = None,
    note: str | None = None,
    on: date,
    today: date,
) -> OrderPage:
    """Write down what a buyer asks for; wants and the deposit as they are typed.

    Raises
    ------
    NoSuchBuyer, SeveralBuyers, BuyerEnded, BuyerForgotten
    NothingWanted, UnreadableWant, WantTwice, UnreadableAmount, NoSuchSpecies, NotYet,
    NeededBeforeAsked
    """
    row = selling_to(session, buyer)
    refuse_future(f"The order of {row.called}", on, today)
    if not wants:
        raise NothingWanted
    _refuse_before(needed_by, on)
    order = begin_order(session, row.id, on=on, needed_by=needed_by, note=note)
    write_wants(session, order, wants)
    if deposit:
        amount = parse_amount(deposit, order.currency)
        if amount:
            session.add(
                Payment(order_id=order.id or 0, paid_on=on, kind="deposit", amount_minor=amount)
            )
            note_event(session, order, "deposit", on)
    session.flush()
    tell(session, f"order {order.code} of {row.buyer} was added")
    return order_page(session, order.code, today, _beyond(session, order.code, today))


def _refuse_before(needed_by: date | None, asked_on: date) -> None:
    if needed_by is not None and needed_by < asked_on:
        raise NeededBeforeAsked(needed_by, asked_on)


def _beyond(session: Session, code: str, today: date) -> tuple[str, ...]:
    """What is asked for beyond what will surely be there by its day."""
    from colony.acts.orders.promises import beyond  # noqa: PLC0415 - loads numpy

    return beyond(session, order_row(session, code, today), today)


def begin_order(
    session: Session,
    buyer_id: int,
    *,
    on: date,
    needed_by: date | None = None,
    note: str | None = None,
) -> Order:
    """A new order of a buyer, with the next number, that asks for nothing yet."""
    newest = session.exec(select(func.max(col(Order.id)))).one() or 0
    codes = set(session.exec(select(Order.code)).all())
    number = newest + 1
    while str(number) in codes:
        number += 1
    order = Order(
        code=str(number),
        buyer_id=buyer_id,
        asked_on=on,
        needed_by=needed_by,
        currency=read_settings(session).currency,
        note=note or None,
    )
    session.add(order)
    session.flush()
    return order


def edit_order(
    session: Session,
    *,
    order: str,
    wants: Sequence[str] | None = None,
    needed_by: date | None = None,
    note: str | None = None,
    today: date,
) -> OrderPage:
    """Correct what an order asks for, by when, or its note.

    Raises
    ------
    NoSuchOrder, NothingToChange, UnreadableWant, WantTwice, NoSuchSpecies
    """
    record = find_order(session, order)
    if not wants and needed_by is None and note is None:
        raise NothingToChange(f"order {record.code}")
    if wants:
        for line in session.exec(select(OrderWant).where(OrderWant.order_id == record.id)):
            session.delete(line)
        session.flush()
        record.kinship = None
        write_wants(session, record, wants)
    if needed_by is not None:
        _refuse_before(needed_by, record.asked_on)
        record.needed_by = needed_by
    if note is not None:
        record.note = note or None
    session.add(record)
    session.flush()
    tell(session, f"order {record.code} was corrected")
    return order_page(session, record.code, today)


def list_orders(
    session: Session,
    *,
    state: str | None = None,
    buyer: str | None = None,
    only_open: bool = False,
    today: date,
) -> list[OrderPage]:
    """The orders, the open ones first and in the order in which they are served.

    Those with money paid come first, then by the day on which they were asked for.
    """
    whose = find_buyer(session, buyer).id if buyer else None
    found = [
        row
        for row in queue(read_orders(session, today))
        if (whose is None or row.head.buyer_id == whose)
        and (row.state == state if state else not only_open or row.is_open)
    ]
    return [as_page(row) for row in found]


def queue(orders: Sequence[OrderRow]) -> list[OrderRow]:
    """The orders as they are served: the open ones first, with a deposit first, by their day."""
    return sorted(
        orders,
        key=lambda row: (not row.is_open, not row.has_deposit, row.head.asked_on, row.head.id),
    )


def show_order(session: Session, *, order: str, today: date) -> OrderHistory:
    """An order with all that happened to it.

    Raises
    ------
    NoSuchOrder
    """
    row = order_row(session, order, today)
    return OrderHistory(as_page(row), row.events, row.payments, row.shipment)


def note_offer(
    session: Session, *, order: str, on: date, note: str | None, today: date
) -> OrderPage:
    """Note that animals were offered to the buyer.

    Raises
    ------
    NoSuchOrder, NotNowWithOrder, NotYet
    """
    refuse_future("An offer", on, today)
    record = find_order(session, order)
    note_event(session, record, "offered", on, note)
    tell(session, f"order {record.code} was offered")
    return order_page(session, record.code, today)


def note_event(
    session: Session, order: Order, event: str, on: date, note: str | None = None
) -> None:
    """Write what happened to an order, if it may.

    Raises
    ------
    NotNowWithOrder
    """
    written = select(OrderEvent.event).where(OrderEvent.order_id == order.id)
    state = state_of(session.exec(written.order_by(col(OrderEvent.id))))
    if after(state, event) is None:
        raise NotNowWithOrder(order.code, state, event, possible(state))
    session.add(OrderEvent(order_id=order.id or 0, event=event, happened_on=on, note=note or None))
    session.flush()


def find_order(session: Session, code: str) -> Order:
    """The order of a number, with or without a ``#`` before it.

    Raises
    ------
    NoSuchOrder
    """
    plain = str(code).strip().removeprefix("#")
    found = session.exec(select(Order).where(Order.code == plain)).first()
    if found is None:
        raise NoSuchOrder(str(code))
    return found


def order_row(session: Session, code: str, today: date) -> OrderRow:
    """All of one order.

    Raises
    ------
    NoSuchOrder
    """
    return read_orders(session, today, code=find_order(session, code).code)[0]


def order_page(session: Session, code: str, today: date, warnings: Sequence[str] = ()) -> OrderPage:
    """One order as a page."""
    return replace(as_page(order_row(session, code, today)), warnings=tuple(warnings))


def as_page(row: OrderRow) -> OrderPage:
    """An order as a list shows it."""
    money, currency = row.money, row.currency
    return OrderPage(
        order=int(row.code),
        buyer=row.buyer,
        state=row.state,
        want=want_in_words(row.wants, row.head.kinship, currency),
        by=row.head.needed_by,
        tags=row.tags,
        deposit=in_major(money.deposit, currency),
        owed=None if money.owed is None else in_major(money.owed, currency),
        price=None if money.price is None else in_major(money.price, currency),
        paid=in_major(money.paid, currency),
        currency=currency,
        asked_on=row.head.asked_on,
        kept_until=row.kept_until,
        kinship=row.head.kinship,
        note=row.head.note,
    )
