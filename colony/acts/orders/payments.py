"""Money for an order: deposits, payments, refunds, and what is let off."""

from datetime import date

from sqlmodel import Session

from colony.acts.animals.days import refuse_future
from colony.acts.orders.orders import OrderPage, find_order, note_event, order_page, order_row
from colony.notation.money import in_major, parse_amount, say_money
from colony.records import Payment
from colony.refusals.orders import MoreThanPaid
from colony.store.journal.journal import tell


def pay(
    session: Session,
    *,
    order: str,
    amount: str,
    kind: str = "payment",
    note: str | None = None,
    on: date,
    today: date,
) -> OrderPage:
    """Write down money for an order, as it is typed: ``100`` or ``99.50 EUR``.

    Raises
    ------
    NoSuchOrder, UnreadableAmount, OtherCurrency, AmountOutOfRange, NotYet
    MoreThanPaid
        More would be given back than was paid.
    """
    record = find_order(session, order)
    refuse_future("A payment", on, today)
    minor = parse_amount(amount, record.currency, least=1)
    before = order_row(session, record.code, today)
    if kind == "refund" and minor > before.money.paid:
        said = say_money(minor, record.currency), say_money(before.money.paid, record.currency)
        raise MoreThanPaid(record.code, *said)
    session.add(
        Payment(
            order_id=record.id or 0, paid_on=on, kind=kind, amount_minor=minor, note=note or None
        )
    )
    session.flush()
    owed = order_row(session, record.code, today).money.owed
    note_event(session, record, "deposit" if owed or owed is None else "paid", on)
    tell(session, f"order {record.code}: {kind} of {say_money(minor, record.currency)}")
    over = _over(session, record.code, today)
    return order_page(session, record.code, today, over)


def _over(session: Session, code: str, today: date) -> tuple[str, ...]:
    row = order_row(session, code, today)
    price = row.money.price
    beyond = 0 if price is None else row.money.paid + row.money.discount - price
    if beyond <= 0:
        return ()
    return (f"{in_major(beyond, row.currency)} {row.currency} more than the price was paid.",)
