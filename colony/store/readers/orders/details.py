"""What belongs to orders, by the id of the order: wants, events, payments, journeys, animals."""

from collections import defaultdict
from collections.abc import Sequence
from datetime import date
from typing import Any, NamedTuple

from sqlalchemy import select
from sqlmodel import Session, col

from colony.planning.orders.wanted import ForSale, PriceLine, WantLine
from colony.records import (
    Animal,
    OrderEvent,
    OrderWant,
    Payment,
    Price,
    Reservation,
    Shipment,
    Species,
)
from colony.store.readers.animals.herd import read_widths_of
from colony.store.readers.rows import read_rows


class EventRow(NamedTuple):
    """What happened to an order on a day."""

    event: str
    on: date
    note: str | None


class PaymentRow(NamedTuple):
    """Money for an order, in minor units."""

    on: date
    kind: str
    amount_minor: int
    note: str | None


class ShipmentRow(NamedTuple):
    """A journey of an order's animals."""

    leaves_on: date
    hours: int
    arrived_on: date | None
    lost: int | None
    claim: str | None
    weather: str | None = None


class Went(NamedTuple):
    """An animal of an order: until when it is kept, and whether it is now or went with it."""

    animal: ForSale
    until: date | None
    kept: bool


def read_prices(session: Session) -> list[PriceLine]:
    """The price list."""
    query = (
        select(Price, col(Animal.tag), col(Species.name))
        .join(Animal, col(Price.animal_id) == col(Animal.id), isouter=True)
        .join(Species, col(Price.species_id) == col(Species.id), isouter=True)
        .order_by(col(Price.id))
    )
    return [
        PriceLine(
            price.price_minor,
            price.valid_from,
            price.valid_until,
            tag,
            species,
            price.line,
            price.sex,
            price.from_width_mm or 0,
        )
        for price, tag, species in session.execute(query)
    ]


def read_wants(session: Session) -> dict[int, list[WantLine]]:
    """What each order asks for."""
    query = (
        select(
            col(OrderWant.order_id),
            col(OrderWant.sex),
            col(OrderWant.wanted),
            col(Species.name),
            col(OrderWant.line),
            col(OrderWant.width_mm),
            col(OrderWant.price_minor),
        )
        .join(Species, col(OrderWant.species_id) == col(Species.id), isouter=True)
        .order_by(col(OrderWant.id))
    )
    found: dict[int, list[WantLine]] = defaultdict(list)
    for order_id, *facts in _any(session, query):
        found[order_id].append(WantLine(*facts))
    return found


def read_events(session: Session) -> dict[int, list[EventRow]]:
    """What happened to each order, the first first."""
    query = select(
        col(OrderEvent.order_id),
        col(OrderEvent.event),
        col(OrderEvent.happened_on),
        col(OrderEvent.note),
    ).order_by(col(OrderEvent.id))
    found: dict[int, list[EventRow]] = defaultdict(list)
    for order_id, *facts in _any(session, query):
        found[order_id].append(EventRow(*facts))
    return found


def read_payments(session: Session) -> dict[int, list[PaymentRow]]:
    """The money of each order."""
    query = select(
        col(Payment.order_id),
        col(Payment.paid_on),
        col(Payment.kind),
        col(Payment.amount_minor),
        col(Payment.note),
    ).order_by(col(Payment.id))
    found: dict[int, list[PaymentRow]] = defaultdict(list)
    for order_id, *facts in _any(session, query):
        found[order_id].append(PaymentRow(*facts))
    return found


def read_shipments(session: Session) -> dict[int, ShipmentRow]:
    """The last journey of each order."""
    query = select(
        col(Shipment.order_id),
        col(Shipment.leaves_on),
        col(Shipment.hours),
        col(Shipment.arrived_on),
        col(Shipment.lost),
        col(Shipment.claim),
        col(Shipment.weather),
    ).order_by(col(Shipment.id))
    return {order_id: ShipmentRow(*facts) for order_id, *facts in _any(session, query)}


def read_animals_of(session: Session, today: date) -> dict[int, list[Went]]:
    """The animals of each order: until when each is kept, and whether it is now."""
    query = (
        select(
            col(Reservation.order_id),
            col(Animal.id),
            col(Animal.tag),
            col(Animal.sex),
            col(Species.name),
            col(Animal.line),
            col(Animal.ended_on),
            col(Animal.status),
            col(Reservation.until),
            col(Reservation.ended_on),
        )
        .join(Animal, col(Reservation.animal_id) == col(Animal.id))
        .join(Species, col(Animal.species_id) == col(Species.id), isouter=True)
        .order_by(col(Reservation.id))
    )
    rows = _any(session, query)
    widths = read_widths_of(session, {row[1] or 0 for row in rows}) if rows else {}
    found: dict[int, list[Went]] = defaultdict(list)
    for order_id, animal_id, tag, sex, species, line, left_on, status, until, ended_on in rows:
        width_mm = float(widths.get(animal_id or 0, (None, 0))[1])
        animal = ForSale(tag, sex, species or "", line, width_mm)
        kept = ended_on is None and (until is None or until >= today) and status == "present"
        if kept or (status == "sold" and ended_on == left_on):
            found[order_id].append(Went(animal, until, kept))
    return found


def _any(session: Session, query: Any) -> Sequence[Any]:  # noqa: ANN401 - rows of any columns
    """Rows whose columns go into one value as they stand."""
    return read_rows(session, query)
