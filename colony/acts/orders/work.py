"""What the orders of the book ask for today."""

from datetime import date

from sqlmodel import Session

from colony.planning.orders.work import OrderAtHand, OrderWork, order_work
from colony.store.readers.orders.buyers import read_buyers
from colony.store.readers.orders.orders import read_orders


def orders_today(session: Session, *, today: date) -> list[OrderWork]:
    """What each open order asks for, the first day first."""
    orders = read_orders(session, today)
    if not orders:
        return []
    papers = {buyer.id: buyer.papers_until for buyer in read_buyers(session)}
    return order_work(
        (
            OrderAtHand(
                row.code,
                row.buyer,
                row.state,
                row.tags,
                row.kept_until,
                row.head.needed_by,
                row.shipment.leaves_on if row.shipment else None,
                papers.get(row.head.buyer_id),
            )
            for row in orders
        ),
        today,
    )
