"""Housing: everybody in one tank, and as many in it as were counted."""

from collections.abc import Iterator
from datetime import date
from itertools import pairwise

from sqlalchemy import select
from sqlmodel import Session, col

from colony.acts.book.checks.finding import Finding
from colony.acts.care.headcount import last_headcounts
from colony.records import Animal, Placement, Tank
from colony.refusals.base import act
from colony.store.readers.animals.herd import read_herd, read_places
from colony.store.readers.rows import read_rows


def somewhere(session: Session, today: date) -> Iterator[Finding]:
    """Who is present is in a tank."""
    places = read_places(session, today)
    for row in read_herd(session).rows:
        if row.status == "present" and row.id not in places:
            problem = "is present and in no tank"
            yield Finding("place", False, row.tag, problem, (act("tank move", row.tag),))


def one_tank_a_day(session: Session, _today: date) -> Iterator[Finding]:
    """Nobody is in two tanks on one day."""
    query = (
        select(col(Animal.tag), col(Placement.entered_on), col(Placement.left_on), col(Tank.code))
        .select_from(Placement)
        .join(Animal, col(Placement.animal_id) == col(Animal.id))
        .join(Tank, col(Placement.tank_id) == col(Tank.id))
        .order_by(col(Placement.animal_id), col(Placement.entered_on))
    )
    for before, after in pairwise(read_rows(session, query)):
        tag, entered = after[0], after[1]
        if before[0] == tag and (before[2] is None or before[2] > entered):
            problem = f"is in {before[3]} and in {after[3]} on {entered}"
            remedies = (act("book history", animal=tag), act("book undo", act=""))
            yield Finding("place", True, tag, problem, remedies, in_turn=True)


def headcounts(session: Session, _today: date) -> Iterator[Finding]:
    """The last headcount of each tank agreed with the book."""
    for code, head in last_headcounts(session).items():
        if head.counted != head.booked:
            problem = f"{head.counted} were counted on {head.on}, the book had {head.booked}"
            remedies = (act("round count", code), act("tank move", "TAG", code))
            yield Finding("headcount", False, code, problem, remedies)
