"""Orders: each animal kept once and here, events that can follow each other, buyers as sealed."""

from collections import defaultdict
from collections.abc import Iterator
from datetime import date

from sqlmodel import Session, col, select

from colony.acts.book.checks.finding import Finding
from colony.acts.orders.people import digest_of
from colony.planning.orders.states import ASKED, after
from colony.records import Animal, Buyer, Order, OrderEvent, Person, Reservation
from colony.refusals.base import act
from colony.store.readers.orders.kept import open_on

CHECK = "orders"


def kept_once_and_here(session: Session, today: date) -> Iterator[Finding]:
    """No animal is kept for two orders on one day, nor when it is not here any more."""
    query = (
        select(col(Animal.tag), col(Animal.status), col(Order.code))
        .join(Reservation, col(Reservation.animal_id) == col(Animal.id))
        .join(Order, col(Reservation.order_id) == col(Order.id))
        .where(open_on(today))
        .order_by(col(Reservation.id))
    )
    orders: dict[tuple[str, str], list[str]] = defaultdict(list)
    for tag, status, code in session.exec(query):
        orders[tag, status].append(code)
    for (tag, status), codes in orders.items():
        letting_go = tuple(act("order release", code, tag) for code in codes)
        if status != "present":
            problem = f"is {status} and kept for order {' and '.join(codes)}"
            yield Finding(CHECK, True, tag, problem, letting_go, in_turn=True)
        elif len(codes) > 1:
            yield Finding(CHECK, True, tag, f"is kept for orders {' and '.join(codes)}", letting_go)


def events_follow(session: Session, today: date) -> Iterator[Finding]:  # noqa: ARG001 - as every check
    """Each event of an order can follow those before it."""
    query = (
        select(col(Order.code), col(OrderEvent.event), col(OrderEvent.happened_on))
        .join(Order, col(OrderEvent.order_id) == col(Order.id))
        .order_by(col(OrderEvent.order_id), col(OrderEvent.id))
    )
    states: dict[str, str] = defaultdict(lambda: ASKED)
    for code, event, on in session.exec(query):
        state = after(states[code], event)
        if state is None:
            yield Finding(
                CHECK,
                False,
                f"order {code}",
                f"was {event} on {on} when it was {states[code]}",
                (act("order show", code),),
            )
        else:
            states[code] = state


def people_as_sealed(session: Session, today: date) -> Iterator[Finding]:  # noqa: ARG001 - the same
    """What is personal of each buyer is what the act that wrote it has the digest of."""
    people = {person.id: person for person in session.exec(select(Person))}
    for buyer in session.exec(select(Buyer).where(col(Buyer.person_id).is_not(None))):
        person = people.get(buyer.person_id)
        problem = (
            "has no name any more, and was not forgotten"
            if person is None
            else "has another name or address than was written"
            if digest_of(person) != buyer.person_digest
            else ""
        )
        if problem:
            yield Finding(
                CHECK, True, buyer.code, problem, (act("buyer edit", buyer.code, contact=""),)
            )
