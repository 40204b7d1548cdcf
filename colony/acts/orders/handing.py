"""How an order ends: its animals are shipped or collected, it is closed, or it is cancelled."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from sqlmodel import Session, col, select

from colony.acts.animals.animals import write_end
from colony.acts.animals.days import refuse_before_life, refuse_future
from colony.acts.animals.guards import Decision, against, overrule
from colony.acts.animals.leaving import refuse_later_events
from colony.acts.orders.kept import let_go
from colony.acts.orders.orders import OrderPage, find_order, note_event, order_page, order_row
from colony.acts.tanks.isolation import reason_to_leave
from colony.notation.money import say_money
from colony.planning.guards.judge import Objection, Proposal
from colony.planning.guards.table import HAND_OVER, weight
from colony.planning.orders.shipping import ShippingStep, long_journey, work_before
from colony.planning.orders.states import after, possible
from colony.planning.pups.readiness import GATES
from colony.records import Animal, Order, Reservation, Shipment
from colony.refusals.orders import NothingKept, NotNowWithOrder, NotShipped
from colony.store.journal.journal import tell
from colony.store.readers.animals.lives import read_lives
from colony.store.readers.orders.buyers import read_buyers
from colony.store.readers.orders.kept import open_on
from colony.store.readers.orders.orders import OrderRow
from colony.store.readers.pups.growing import read_pups
from colony.store.settings import read_settings


@dataclass(frozen=True)
class Shipped:
    """An order that leaves, or will: what stands against it, and the work before."""

    order: OrderPage
    leaves_on: date
    hours: int
    gone: bool
    against: tuple[str, ...]
    work: tuple[ShippingStep, ...]


def ship(
    session: Session,
    *,
    order: str,
    on: date,
    hours: int,
    weather: str | None = None,
    anyway: bool = False,
    why: str | None = None,
    today: date,
) -> Shipped:
    """Ship the animals of an order; of a day to come, plan it and say what stands against it.

    The `weather` that was planned with stands against the journey until it is said anew; an
    empty text lets it go.

    Raises
    ------
    NoSuchOrder, NothingKept, NotNowWithOrder
    StandsAgainst, AnywayNeedsWhy
        One is held, isolated, not ready, near a birth or kept back, and leaves today.
    """
    record = find_order(session, order)
    row = order_row(session, record.code, today)
    _refuse_event(row, "shipped")
    animals = _kept(session, record, today)
    standing = against_handing(session, row, animals, on)
    journey = _journey(session, record, on, hours, weather)
    said = (*(each.sentence for each in standing), *_against_journey(session, row, journey))
    if on > today:
        tell(session, f"order {record.code} is to leave on {on}")
        page = order_page(session, record.code, today, _asked(hours))
        return Shipped(page, on, hours, gone=False, against=said, work=_work(session, on, today))
    overruled = _hand_over(session, row, animals, standing, on=on, decision=Decision(anyway, why))
    note_event(session, record, "shipped", on)
    tell(session, f"order {record.code} was shipped")
    page = order_page(
        session,
        record.code,
        today,
        (*overruled, *_against_journey(session, row, journey), *_asked(hours)),
    )
    return Shipped(page, journey.leaves_on, hours, gone=True, against=said, work=())


def collect(
    session: Session,
    *,
    order: str,
    on: date,
    anyway: bool = False,
    why: str | None = None,
    today: date,
) -> OrderPage:
    """The buyer came for the animals.

    Raises
    ------
    NoSuchOrder, NothingKept, NotNowWithOrder, NotYet, StandsAgainst, AnywayNeedsWhy
    """
    record = find_order(session, order)
    refuse_future(f"The sale of order {record.code}", on, today)
    row = order_row(session, record.code, today)
    _refuse_event(row, "collected")
    animals = _kept(session, record, on)
    standing = against_handing(session, row, animals, on)
    said = _hand_over(session, row, animals, standing, on=on, decision=Decision(anyway, why))
    note_event(session, record, "collected", on)
    tell(session, f"order {record.code} was collected")
    return order_page(session, record.code, today, said)


def arrived(
    session: Session,
    *,
    order: str,
    on: date,
    lost: int = 0,
    claim: str | None = None,
    today: date,
) -> OrderPage:
    """Write down how the animals of an order came.

    Raises
    ------
    NoSuchOrder, NotShipped, NotYet
    """
    record = find_order(session, order)
    refuse_future("The arrival", on, today)
    journey = _shipment(session, record)
    if journey is None or order_row(session, record.code, today).state not in {"shipped", "closed"}:
        raise NotShipped(record.code)
    journey.arrived_on = max(on, journey.leaves_on)
    journey.lost, journey.claim = lost, claim or journey.claim
    session.add(journey)
    session.flush()
    tell(session, f"order {record.code} arrived{f', {lost} lost' if lost else ''}")
    return order_page(session, record.code, today)


def close_order(
    session: Session,
    *,
    order: str,
    on: date,
    anyway: bool = False,
    why: str | None = None,
    today: date,
) -> OrderPage:
    """Close an order; animals that are still kept for it were collected on that day.

    Raises
    ------
    NoSuchOrder, NotNowWithOrder, NotYet, StandsAgainst, AnywayNeedsWhy
    """
    record = find_order(session, order)
    refuse_future(f"The end of order {record.code}", on, today)
    row = order_row(session, record.code, today)
    said: tuple[str, ...] = ()
    if row.is_open:
        said = collect(session, order=order, on=on, anyway=anyway, why=why, today=today).warnings
    note_event(session, record, "closed", on)
    tell(session, f"order {record.code} was closed")
    return order_page(session, record.code, today, (*said, *_still_owed(session, record, today)))


def cancel_order(
    session: Session, *, order: str, on: date, note: str | None = None, today: date
) -> OrderPage:
    """Nothing comes of an order; what was kept for it is free.

    Raises
    ------
    NoSuchOrder, NotNowWithOrder, NotYet
    """
    record = find_order(session, order)
    refuse_future(f"The end of order {record.code}", on, today)
    _refuse_event(order_row(session, record.code, today), "cancelled")
    for reservation in session.exec(
        select(Reservation).where(
            Reservation.order_id == record.id, col(Reservation.ended_on).is_(None)
        )
    ).all():
        reservation.ended_on = max(on, reservation.since)
        session.add(reservation)
    note_event(session, record, "cancelled", on, note)
    tell(session, f"order {record.code} was cancelled")
    row = order_row(session, record.code, today)
    paid = (
        (f"{say_money(row.money.paid, row.currency)} was paid: give it back, or keep it by word.",)
        if row.money.paid
        else ()
    )
    return order_page(session, record.code, today, paid)


def against_handing(
    session: Session, row: OrderRow, animals: Sequence[Animal], on: date
) -> tuple[Objection, ...]:
    """What stands against handing animals to the buyer of an order, as unready pups do."""
    proposal = Proposal(HAND_OVER, on, whom=row.buyer)
    lacking = _unready(session, [animal.tag for animal in animals], on)
    refuse = weight("unready", HAND_OVER) or ""
    return (
        *against(session, proposal, animals),
        *(
            Objection("unready", (tag,), f"waits on {', '.join(lacks)}", refuse)
            for tag, lacks in lacking.items()
        ),
    )


_WAITED_ON = {"age", "width", "feeding", "sexed"}
"""The gates that are a pup's own; the others are guards of their own."""


def _unready(session: Session, tags: Sequence[str], on: date) -> dict[str, list[str]]:
    """What each pup among some animals waits on still."""
    lives = read_lives(session)
    found = {}
    for pup in read_pups(session, lives, on):
        if pup.tag in tags:
            rules = lives.of(pup.species or None).ready_rules()
            lacks = [
                gate.lacks
                for gate in GATES
                if gate.name in _WAITED_ON and not gate.opening(pup, rules, on).is_open
            ]
            if lacks:
                found[pup.tag] = lacks
    return found


def _hand_over(
    session: Session,
    row: OrderRow,
    animals: Sequence[Animal],
    standing: Sequence[Objection],
    *,
    on: date,
    decision: Decision,
) -> tuple[str, ...]:
    for animal in animals:
        refuse_before_life(animal, on)
        refuse_later_events(session, animal, on)
    ids = {animal.tag: animal.id or 0 for animal in animals}
    proposal = Proposal(HAND_OVER, on, whom=row.buyer)
    said = overrule(session, standing, proposal, decision, ids)
    why = f"order {row.code}"
    reason_to_leave(session, list(ids), to=None, why=decision.why or why, today=on)
    for animal in animals:
        let_go(session, animal.id or 0, on, sold=True)
        write_end(session, animal, how="sold", on=on, why=why)
    return said


def _kept(session: Session, order: Order, on: date) -> list[Animal]:
    query = (
        select(Animal)
        .join(Reservation, col(Reservation.animal_id) == col(Animal.id))
        .where(Reservation.order_id == order.id, open_on(on), Animal.status == "present")
        .order_by(col(Reservation.id))
    )
    animals = list(session.exec(query))
    if not animals:
        raise NothingKept(order.code)
    return animals


def _work(session: Session, on: date, today: date) -> tuple[ShippingStep, ...]:
    """The work before, with the boxes and bags as the house has set them."""
    return work_before(on, today, boxes=read_settings(session).shipping_boxes)


def _refuse_event(row: OrderRow, event: str) -> None:
    if event != "cancelled" and row.is_open and not row.animals:
        raise NothingKept(row.code)
    if after(row.state, event) is None:
        raise NotNowWithOrder(row.code, row.state, event, possible(row.state))


def _against_journey(session: Session, row: OrderRow, journey: Shipment) -> tuple[str, ...]:
    """What is said against a journey, and lets it be: papers that ran out, cold or heat."""
    buyer = next(each for each in read_buyers(session) if each.id == row.head.buyer_id)
    said = []
    if buyer.papers_until is not None and buyer.papers_until < journey.leaves_on:
        said.append(
            f"The papers of {buyer.called} hold until {buyer.papers_until}: ask the permit office."
        )
    elif buyer.papers is None and buyer.kind != "keeper":
        said.append(f"No papers of {buyer.called} are on record: ask the permit office.")
    if journey.weather:
        said.append(f"On the way: {journey.weather}.")
    return tuple(said)


def _journey(session: Session, order: Order, on: date, hours: int, weather: str | None) -> Shipment:
    journey = _shipment(session, order) or Shipment(
        order_id=order.id or 0, leaves_on=on, hours=hours
    )
    journey.leaves_on, journey.hours = on, hours
    if weather is not None:
        journey.weather = weather or None
    session.add(journey)
    session.flush()
    return journey


def _shipment(session: Session, order: Order) -> Shipment | None:
    query = select(Shipment).where(Shipment.order_id == order.id).order_by(col(Shipment.id).desc())
    return session.exec(query).first()


def _asked(hours: int) -> tuple[str, ...]:
    long = long_journey(hours)
    return () if long is None else (long,)


def _still_owed(session: Session, order: Order, today: date) -> tuple[str, ...]:
    row = order_row(session, order.code, today)
    if not row.money.owed:
        return ()
    return (f"{say_money(row.money.owed, row.currency)} is still owed.",)
