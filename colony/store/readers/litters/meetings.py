"""Who could have met whom: by the tanks they were in, and by their pairings."""

from collections import defaultdict
from dataclasses import dataclass
from datetime import date
from typing import NamedTuple

from sqlalchemy import select
from sqlalchemy.orm import aliased
from sqlmodel import Session, col

from colony.records import Pairing, PairingSire, Placement, Tank
from colony.store.readers.rows import read_rows

Stay = tuple[int, date, date | None]
"""A tank, the first day in it, and the first day elsewhere."""


class SharedStay(NamedTuple):
    """Another animal in one tank with somebody; `left` is the first day that one was elsewhere."""

    animal_id: int
    tank: str
    first: date
    left: date | None


@dataclass(frozen=True)
class Meetings:
    """Stays of each animal, and the spans in which two were paired."""

    stays: dict[int, list[Stay]]
    pairings: dict[tuple[int, int], list[tuple[date, date | None]]]

    def never_met(self, dam_id: int, sire_id: int, first: date, last: date) -> bool:
        """Whether the book knows where both were on those days, and it was never together."""
        paired = self.pairings.get((dam_id, sire_id), ())
        if any(_meets(start, end, first, last) for start, end in paired):
            return False
        dams = [stay for stay in self.stays.get(dam_id, ()) if _meets(*stay[1:], first, last)]
        sires = [stay for stay in self.stays.get(sire_id, ()) if _meets(*stay[1:], first, last)]
        together = any(
            dam[0] == sire[0] and _meets(dam[1], dam[2], sire[1], sire[2] or date.max)
            for dam in dams
            for sire in sires
        )
        return bool(dams) and bool(sires) and not together


def read_shared_stays(
    session: Session, animal_id: int, first: date, last: date
) -> list[SharedStay]:
    """Read who shared a tank with an animal on some of these days, oldest first.

    Who came on the day on which the animal left did not meet it.
    """
    own, other = aliased(Placement), aliased(Placement)
    query = (
        select(
            col(other.animal_id),
            col(Tank.code),
            col(own.entered_on),
            col(own.left_on),
            col(other.entered_on),
            col(other.left_on),
        )
        .select_from(own)
        .join(other, col(own.tank_id) == col(other.tank_id))
        .join(Tank, col(own.tank_id) == col(Tank.id))
        .where(
            col(own.animal_id) == animal_id,
            col(other.animal_id) != animal_id,
            *(col(stay.entered_on) <= last for stay in (own, other)),
            *(col(stay.left_on).is_(None) | (col(stay.left_on) > first) for stay in (own, other)),
        )
    )
    shared = [
        SharedStay(mate, tank, max(came, entered), min(filter(None, (gone, left)), default=None))
        for mate, tank, came, gone, entered, left in read_rows(session, query)
    ]
    together = [stay for stay in shared if stay.left is None or stay.first < stay.left]
    return sorted(together, key=lambda stay: (stay.first, stay.animal_id))


def read_meetings(session: Session) -> Meetings:
    """Read every placement and pairing."""
    stays: dict[int, list[Stay]] = defaultdict(list)
    placed = select(
        col(Placement.animal_id),
        col(Placement.tank_id),
        col(Placement.entered_on),
        col(Placement.left_on),
    )
    for animal, tank, entered, left in read_rows(session, placed):
        stays[animal].append((tank, entered, left))
    pairings: dict[tuple[int, int], list[tuple[date, date | None]]] = defaultdict(list)
    paired = (
        select(
            col(Pairing.dam_id), col(PairingSire.sire_id), col(Pairing.started), col(Pairing.ended)
        )
        .select_from(Pairing)
        .join(PairingSire, col(PairingSire.pairing_id) == col(Pairing.id))
    )
    for dam, sire, started, ended in read_rows(session, paired):
        pairings[dam, sire].append((started, ended))
    return Meetings(dict(stays), dict(pairings))


def _meets(start: date, end: date | None, first: date, last: date) -> bool:
    return start <= last and (end is None or end >= first)
