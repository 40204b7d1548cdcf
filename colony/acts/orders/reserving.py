"""Keep animals for an order until a day, and let them go again."""

from collections.abc import Sequence
from datetime import date, timedelta

from sqlmodel import Session, col, select

from colony.acts.animals.days import refuse_before_life, refuse_future
from colony.acts.animals.guards import Decision, guard
from colony.acts.orders.buyers import begin_buyer, find_buyer, selling_to
from colony.acts.orders.kept import let_go
from colony.acts.orders.orders import (
    OrderPage,
    begin_order,
    find_order,
    note_event,
    order_page,
    order_row,
)
from colony.notation.wants import say_kinship
from colony.planning.guards.judge import Proposal
from colony.planning.guards.table import RESERVE
from colony.planning.orders.wanted import answers, is_of
from colony.records import Animal, Order, OrderEvent, Reservation
from colony.refusals.orders import NoSuchBuyer, NotKeptFor, ReservedUntilWhen
from colony.store.journal.journal import tell
from colony.store.lookup import find_animals
from colony.store.readers.orders.kept import open_on
from colony.store.readers.orders.orders import OrderRow, read_orders
from colony.store.readers.pedigree import read_lineage
from colony.store.settings import read_settings


def reserve(
    session: Session,
    *,
    order: str,
    tags: Sequence[str],
    until: date | None = None,
    on: date,
    anyway: bool = False,
    why: str | None = None,
    today: date,
) -> OrderPage:
    """Keep animals for an order; for those that are kept for it already the last day is new.

    Raises
    ------
    NoSuchOrder, NoSuchTag, NotNowWithOrder, ReservedUntilWhen, NotYet, EndsBeforeItBegan
    StandsAgainst, AnywayNeedsWhy
        An animal is gone, kept back, or kept for another order, and that is not overruled.
    """
    record = find_order(session, order)
    row = order_row(session, record.code, today)
    animals = find_animals(session, tags)
    refuse_future(f"The reservation for order {record.code}", on, today)
    for animal in animals:
        refuse_before_life(animal, on)
    if until is None and (days := read_settings(session).reserve_days):
        until = max(on, today) + timedelta(days=days)
    if until is not None and until < on:
        raise ReservedUntilWhen(until, on)
    running = _running(session, record, on)
    new = [animal for animal in animals if animal.id not in running]
    proposal = Proposal(RESERVE, on, whom=None)
    said = guard(session, proposal, new, Decision(anyway=anyway, why=why))
    for animal in new:
        let_go(session, animal.id or 0, on)
        _clear_word(session, animal)
        session.add(
            Reservation(order_id=record.id or 0, animal_id=animal.id or 0, since=on, until=until)
        )
    for animal in animals:
        if animal.id in running:
            running[animal.id].until = until
            session.add(running[animal.id])
    session.flush()
    _note_reserved(session, record, row, on)
    names = ", ".join(animal.tag for animal in animals)
    tell(session, f"{names}: kept for order {record.code}{f' until {until}' if until else ''}")
    page_row = order_row(session, record.code, today)
    warnings = (*said, *_beyond(page_row), *_related(session, page_row, today))
    return order_page(session, record.code, today, warnings)


def release(
    session: Session, *, order: str, tags: Sequence[str] = (), on: date, today: date
) -> OrderPage:
    """Let animals of an order go, or all of them.

    Raises
    ------
    NoSuchOrder, NoSuchTag, NotKeptFor
    """
    record = find_order(session, order)
    running = _running(session, record, on)
    animals = (
        find_animals(session, tags)
        if tags
        else [session.get_one(Animal, animal_id) for animal_id in running]
    )
    for animal in animals:
        if animal.id not in running:
            raise NotKeptFor(animal.tag, record.code)
    for animal in animals:
        let_go(session, animal.id or 0, on)
    tell(
        session,
        f"{', '.join(animal.tag for animal in animals)}: kept no more for order {record.code}",
    )
    return order_page(session, record.code, today)


def keep_by_name(session: Session, animal: Animal, name: str, today: date) -> None:
    """Keep an animal for somebody by name alone, or for nobody where that is empty.

    A buyer of that name is made where there is none; the animal goes into their newest open
    order, or a new one.

    Raises
    ------
    SeveralBuyers, BuyerEnded, BuyerForgotten
    """
    let_go(session, animal.id or 0, today)
    _clear_word(session, animal)
    if not name:
        return
    try:
        find_buyer(session, name)
    except NoSuchBuyer:
        begin_buyer(session, name=name)
    row = selling_to(session, name)
    order = begin_order(session, row.id, on=today)
    session.add(Reservation(order_id=order.id or 0, animal_id=animal.id or 0, since=today))
    session.flush()
    session.add(OrderEvent(order_id=order.id or 0, event="reserved", happened_on=today))
    session.flush()


def adopt_names(session: Session, *, today: date) -> int:
    """Make an order of each name that an older book wrote at an animal; how many there were.

    Raises
    ------
    SeveralBuyers, BuyerEnded, BuyerForgotten
    """
    query = select(Animal).where(
        col(Animal.reserved_for).is_not(None), col(Animal.status) == "present"
    )
    animals = session.exec(query.order_by(col(Animal.id))).all()
    for animal in animals:
        keep_by_name(session, animal, animal.reserved_for or "", today)
    if animals:
        tell(session, f"{', '.join(a.tag for a in animals)}: kept for an order each")
    return len(animals)


def _clear_word(session: Session, animal: Animal) -> None:
    if animal.reserved_for is not None:
        animal.reserved_for = None
        session.add(animal)
        session.flush()


def _running(session: Session, order: Order, on: date) -> dict[int, Reservation]:
    query = select(Reservation).where(Reservation.order_id == order.id, open_on(on))
    return {row.animal_id: row for row in session.exec(query)}


def _note_reserved(session: Session, order: Order, row: OrderRow, on: date) -> None:
    """Note it once a day: a set that is kept animal by animal is one event."""
    last = row.events[-1] if row.events else None
    if row.state not in {"reserved", "paid"} or last is None or last.event != "reserved":
        note_event(session, order, "reserved", on)


def _related(session: Session, row: OrderRow, today: date) -> tuple[str, ...]:
    """Those of a set that are more related than the order asks for, and by how much."""
    if row.head.kinship is None or not row.animals:
        return ()
    lineage = read_lineage(session)
    ids = {each.tag: each.id for each in lineage.herd.rows}
    had = [
        tag
        for other in read_orders(session, today)
        if other.head.buyer_id == row.head.buyer_id and other.code != row.code
        for tag in other.tags
    ]
    kin = lineage.kinship([ids[tag] for tag in row.tags], [ids[tag] for tag in (*row.tags, *had)])
    return tuple(
        f"{tag} and {other}: kinship {kin[at, beside]:.4g}, and {say_kinship(row.head.kinship)} was asked for."
        for at, tag in enumerate(row.tags)
        for beside, other in enumerate((*row.tags, *had))
        if beside > at and kin[at, beside] > row.head.kinship + TOLERANCE
    )


TOLERANCE = 1e-9
"""Kinships are sums of powers of one half."""


def _beyond(row: OrderRow) -> tuple[str, ...]:
    """What is kept beyond what was asked for, or of another kind."""
    if not row.wants:
        return ()
    got = answers(
        row.wants,
        row.animals,
        lambda line, animal: is_of(line, animal) and animal.width_mm >= (line.width_mm or 0),
    )
    odd = [animal.tag for animal, at in zip(row.animals, got, strict=True) if at is None]
    return (f"{', '.join(odd)}: not what order {row.code} asks for.",) if odd else ()
