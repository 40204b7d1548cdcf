"""Buyers: who asks, how to reach them, and how they are taken out of the book again."""

from collections.abc import Mapping
from datetime import date
from typing import Any

from sqlmodel import Session, col, func, select

from colony.acts.animals.days import refuse_future
from colony.acts.orders.people import NAMES, forget_person, write_person
from colony.notation.tags import nearest_tags
from colony.planning.orders.states import OPEN
from colony.records import Buyer, Person
from colony.refusals.animals import NothingToChange
from colony.refusals.orders import (
    BuyerAlreadyEnded,
    BuyerEnded,
    BuyerForgotten,
    BuyerTaken,
    BuyerWaits,
    NamelessBuyer,
    NoSuchBuyer,
    SeveralBuyers,
)
from colony.store.journal.journal import tell
from colony.store.readers.orders.buyers import BuyerRow, read_buyers
from colony.store.readers.orders.orders import read_orders

_CODE = "buyer-"


def add_buyer(session: Session, *, name: str, facts: Mapping[str, Any] | None = None) -> BuyerRow:
    """Write down a buyer; facts by the names of `BUYER_FACTS`.

    Raises
    ------
    BuyerTaken, NamelessBuyer
    """
    row = begin_buyer(session, name=name, facts=facts)
    tell(session, f"{row.buyer} was added")
    return row


def begin_buyer(session: Session, *, name: str, facts: Mapping[str, Any] | None = None) -> BuyerRow:
    """Write a buyer within another act, which tells of it; see `add_buyer`."""
    said = {key: value for key, value in (facts or {}).items() if value not in (None, "")}
    if not name.strip():
        raise NamelessBuyer
    _refuse_taken(session, name)
    buyer = Buyer(code=_next_code(session), kind=said.pop("kind", "keeper"))
    personal = {key: said.pop(key) for key in NAMES if key in said}
    for key, value in said.items():
        setattr(buyer, key, value)
    session.add(buyer)
    write_person(session, buyer, personal | {"name": name})
    return buyer_row(session, buyer.code)


def edit_buyer(
    session: Session,
    *,
    buyer: str,
    name: str | None = None,
    facts: Mapping[str, Any] | None = None,
    back: bool = False,
) -> BuyerRow:
    """Correct facts of a buyer, or bring back one who was ended.

    Raises
    ------
    NoSuchBuyer, SeveralBuyers, BuyerForgotten, BuyerTaken, NothingToChange
    """
    row = find_buyer(session, buyer)
    if row.forgotten_on is not None:
        raise BuyerForgotten(row.buyer, row.forgotten_on)
    said = {key: value for key, value in (facts or {}).items() if value is not None}
    if not (said or name or back):
        raise NothingToChange(row.called)
    if name:
        _refuse_taken(session, name, beside=row.buyer)
    record = session.get_one(Buyer, row.id)
    personal = {key: said.pop(key) for key in NAMES if key in said} | (
        {"name": name} if name else {}
    )
    for key, value in said.items():
        setattr(record, key, None if value == "" else value)
    if back:
        record.ended_on = None
    session.add(record)
    if personal:
        write_person(session, record, personal)
    session.flush()
    tell(session, f"{row.buyer} was corrected")
    return buyer_row(session, row.buyer)


def end_buyer(session: Session, *, buyer: str, on: date, today: date) -> BuyerRow:
    """Sell nothing more to a buyer; what they bought stays.

    Raises
    ------
    NoSuchBuyer, SeveralBuyers, BuyerAlreadyEnded, BuyerWaits, NotYet
    """
    row = find_buyer(session, buyer)
    refuse_future(f"The end of {row.called}", on, today)
    if row.ended_on is not None:
        raise BuyerAlreadyEnded(row.buyer, row.ended_on)
    _refuse_waiting(session, row, today)
    record = session.get_one(Buyer, row.id)
    record.ended_on = on
    session.add(record)
    session.flush()
    tell(session, f"{row.buyer} is ended")
    return buyer_row(session, row.buyer)


def forget_buyer(session: Session, *, buyer: str, today: date) -> BuyerRow:
    """Take out everything personal of a buyer, for good; orders, sales and payments stay.

    Raises
    ------
    NoSuchBuyer, SeveralBuyers, BuyerForgotten, BuyerWaits
    """
    row = find_buyer(session, buyer)
    if row.forgotten_on is not None:
        raise BuyerForgotten(row.buyer, row.forgotten_on)
    _refuse_waiting(session, row, today)
    record = session.get_one(Buyer, row.id)
    forget_person(session, record)
    record.forgotten_on = today
    record.ended_on = record.ended_on or today
    record.papers_until = None
    session.add(record)
    session.flush()
    tell(session, f"{row.buyer} was forgotten")
    return buyer_row(session, row.buyer)


def list_buyers(session: Session, *, ended_too: bool = False) -> list[BuyerRow]:
    """Every buyer of today, or all there ever were."""
    return [row for row in read_buyers(session) if ended_too or row.ended_on is None]


def find_buyer(session: Session, name: str) -> BuyerRow:
    """The buyer of a name or a code; the beginning of a name is enough where one begins so.

    Raises
    ------
    NoSuchBuyer, SeveralBuyers
    """
    rows = read_buyers(session)
    wanted = " ".join(name.split()).casefold()
    exact = [row for row in rows if wanted in {row.buyer.casefold(), (row.name or "").casefold()}]
    begun = [row for row in rows if wanted and (row.name or "").casefold().startswith(wanted)]
    found = exact or begun
    if len(found) > 1:
        raise SeveralBuyers(name, [row.buyer for row in found])
    if not found:
        raise NoSuchBuyer(name, nearest_tags(name, [row.called for row in rows]))
    return found[0]


def selling_to(session: Session, name: str) -> BuyerRow:
    """A buyer to whom something may be sold still.

    Raises
    ------
    NoSuchBuyer, SeveralBuyers, BuyerEnded, BuyerForgotten
    """
    row = find_buyer(session, name)
    if row.forgotten_on is not None:
        raise BuyerForgotten(row.buyer, row.forgotten_on)
    if row.ended_on is not None:
        raise BuyerEnded(row.called, row.ended_on)
    return row


def buyer_row(session: Session, code: str) -> BuyerRow:
    """The buyer of a code."""
    return next(row for row in read_buyers(session) if row.buyer == code)


def _refuse_taken(session: Session, name: str, beside: str = "") -> None:
    wanted = " ".join(name.split()).casefold()
    for row in read_buyers(session):
        if row.buyer != beside and wanted in {row.buyer.casefold(), (row.name or "").casefold()}:
            raise BuyerTaken(name, row.buyer)


def _refuse_waiting(session: Session, row: BuyerRow, today: date) -> None:
    waiting = [
        order.code
        for order in read_orders(session, today)
        if order.head.buyer_id == row.id and order.state in OPEN
    ]
    if waiting:
        raise BuyerWaits(row.buyer, waiting)


def _next_code(session: Session) -> str:
    """One more than the newest; a code that was taken back is not given again."""
    newest = session.exec(select(func.max(col(Buyer.id)))).one() or 0
    codes = {*session.exec(select(Buyer.code)), *session.exec(select(Person.buyer))}
    number = newest + 1
    while f"{_CODE}{number}" in codes:
        number += 1
    return f"{_CODE}{number}"
