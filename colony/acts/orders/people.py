"""What is personal of a buyer: written outside the journal, which has a salted digest of it."""

import json
from collections.abc import Mapping
from hashlib import sha256
from secrets import token_hex
from typing import Any

from sqlmodel import Session, select

from colony.notation.fields.orders import PERSONAL
from colony.records import Buyer, Person

SALT_BYTES = 16
NAMES = tuple(field.name for field in PERSONAL)


def digest_of(person: Person) -> str:
    """The SHA-256 of what is personal with its salt, over a JSON list in the order of `NAMES`."""
    told = json.dumps([person.salt, *(getattr(person, name) for name in NAMES)], ensure_ascii=False)
    return sha256(told.encode()).hexdigest()


def write_person(session: Session, buyer: Buyer, facts: Mapping[str, str | None]) -> None:
    """Say anew what is personal of a buyer; an empty text clears a fact."""
    known = session.get(Person, buyer.person_id) if buyer.person_id else None
    values: dict[str, Any] = {name: getattr(known, name, None) for name in NAMES}
    values |= {name: facts[name] or None for name in NAMES if facts.get(name) is not None}
    person = Person(buyer=buyer.code, salt=token_hex(SALT_BYTES), **values)
    session.add(person)
    session.flush()
    buyer.person_id, buyer.person_digest = person.id, digest_of(person)
    session.add(buyer)
    session.flush()


def forget_person(session: Session, buyer: Buyer) -> None:
    """Take out everything personal that was ever said of a buyer, with the salts.

    SQLite writes zeros over what is deleted, so that the file does not keep it either.
    """
    if session.get_bind().dialect.name == "sqlite":
        session.connection().exec_driver_sql("PRAGMA secure_delete = ON")
    for person in session.exec(select(Person).where(Person.buyer == buyer.code)):
        session.delete(person)
    buyer.person_id = buyer.person_digest = None
    session.add(buyer)
    session.flush()
