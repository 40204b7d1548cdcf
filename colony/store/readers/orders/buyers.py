"""Buyers with what is personal of them."""

from dataclasses import dataclass
from datetime import date
from typing import Any

from sqlalchemy import select
from sqlmodel import Session, col

from colony.records import Buyer, Person
from colony.store.readers.rows import read_rows


@dataclass(frozen=True)
class BuyerRow:
    """One buyer; all that is personal is None once they are forgotten."""

    id: int
    buyer: str
    name: str | None
    kind: str
    country: str | None
    region: str | None
    contact: str | None
    address: str | None
    papers: str | None
    papers_until: date | None
    ended_on: date | None
    forgotten_on: date | None
    note: str | None

    @property
    def called(self) -> str:
        """What a person calls them."""
        return self.name or self.buyer


_COLUMNS: tuple[Any, ...] = (
    col(Buyer.id),
    col(Buyer.code),
    col(Person.name),
    col(Buyer.kind),
    col(Buyer.country),
    col(Buyer.region),
    col(Person.contact),
    col(Person.address),
    col(Person.papers),
    col(Buyer.papers_until),
    col(Buyer.ended_on),
    col(Buyer.forgotten_on),
    col(Person.note),
)


def read_buyers(session: Session) -> list[BuyerRow]:
    """Every buyer, in the order in which they were written."""
    query = (
        select(*_COLUMNS)
        .join(Person, col(Buyer.person_id) == col(Person.id), isouter=True)
        .order_by(col(Buyer.id))
    )
    return [BuyerRow(*row) for row in read_rows(session, query)]
