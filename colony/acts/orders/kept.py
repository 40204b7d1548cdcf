"""Let animals go that are kept for an order: by hand, or because they are not here any more."""

from datetime import date

from sqlmodel import Session, col, select

from colony.records import Order, OrderEvent, Reservation


def let_go(session: Session, animal_id: int, on: date, *, sold: bool = False) -> None:
    """End every open reservation of an animal; an order that has none left is told so.

    Parameters
    ----------
    sold
        It went to the buyer: the order has got it.
    """
    running = session.exec(
        select(Reservation).where(
            Reservation.animal_id == animal_id, col(Reservation.ended_on).is_(None)
        )
    ).all()
    for reservation in running:
        if sold and on < reservation.since:  # it was written late that they were kept
            reservation.since = on
        reservation.ended_on = max(on, reservation.since)
        session.add(reservation)
    session.flush()
    if not sold:
        for order_id in dict.fromkeys(reservation.order_id for reservation in running):
            _tell_released(session, session.get_one(Order, order_id), on)


def _tell_released(session: Session, order: Order, on: date) -> None:
    """Note that nothing is kept for an order any more."""
    left = select(Reservation).where(
        Reservation.order_id == order.id, col(Reservation.ended_on).is_(None)
    )
    if session.exec(left).first() is None:
        session.add(OrderEvent(order_id=order.id or 0, event="released", happened_on=on))
        session.flush()
