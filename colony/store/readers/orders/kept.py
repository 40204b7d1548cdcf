"""Which animals are kept for whom on a day: reservations, and the older word of an animal."""

from datetime import date
from typing import NamedTuple

from sqlalchemy import ColumnElement, select
from sqlmodel import Session, col

from colony.records import Animal, Buyer, Order, Person, Reservation
from colony.store.readers.rows import read_rows


class Kept(NamedTuple):
    """For whom an animal is kept; `order` is empty where only a name was written."""

    tag: str
    buyer: str
    order: str = ""
    until: date | None = None

    @property
    def for_order(self) -> str:
        """For whom, without a name: what the journal may keep."""
        return f"order {self.order}" if self.order else self.buyer


def open_on(today: date) -> ColumnElement[bool]:
    """A reservation holds on a day: it is neither ended nor run out."""
    return col(Reservation.ended_on).is_(None) & (
        col(Reservation.until).is_(None) | (col(Reservation.until) >= today)
    )


def read_kept(session: Session, today: date) -> dict[int, Kept]:
    """Every animal that is kept for somebody on a day, by its id."""
    written = select(col(Animal.id), col(Animal.tag), col(Animal.reserved_for)).where(
        col(Animal.reserved_for).is_not(None)
    )
    kept = {row[0] or 0: Kept(row[1], row[2] or "") for row in read_rows(session, written)}
    reserved = (
        select(
            col(Animal.id),
            col(Animal.tag),
            col(Order.code),
            col(Buyer.code),
            col(Person.name),
            col(Reservation.until),
        )
        .join(Reservation, col(Reservation.animal_id) == col(Animal.id))
        .join(Order, col(Reservation.order_id) == col(Order.id))
        .join(Buyer, col(Order.buyer_id) == col(Buyer.id))
        .join(Person, col(Buyer.person_id) == col(Person.id), isouter=True)
        .where(open_on(today), col(Animal.status) == "present")
        .order_by(col(Reservation.id))
    )
    for animal_id, tag, order, code, name, until in read_rows(session, reserved):
        kept[animal_id or 0] = Kept(tag, name or code, order, until)
    return kept
