"""Which pairings ask for a check: nothing was seen of the dam for some weeks."""

from dataclasses import dataclass
from datetime import date, timedelta

from sqlalchemy import func, select
from sqlmodel import Session, col

from colony.records import Animal, MatingSign, Pairing, PairingSire, PregnancyFinding
from colony.store.readers.animals.herd import read_places

LOOK_EVERY_DAYS = 28
"""How long a paired female goes without a check; common practice, no source."""


@dataclass(frozen=True)
class Unchecked:
    """A running pairing in which nothing was written of the dam for long."""

    dam: str
    sires: tuple[str, ...]
    started: date
    last_look: date
    tank: str | None


def pairings_to_check(session: Session, *, today: date) -> list[Unchecked]:
    """Running pairings without a sign or finding for `LOOK_EVERY_DAYS`, the longest first."""
    limit = today - timedelta(days=LOOK_EVERY_DAYS)
    running = session.execute(
        select(col(Pairing.id), col(Pairing.dam_id), col(Animal.tag), col(Pairing.started))
        .join(Animal, col(Animal.id) == col(Pairing.dam_id))
        .where(col(Pairing.ended).is_(None), col(Pairing.started) < limit)
        .where(col(Animal.status) == "present")
    ).all()
    seen = _last_checks(session, today)
    places = read_places(session, today, [dam for _, dam, _, _ in running])
    sires = _sires(session, [pairing or 0 for pairing, *_ in running])
    found = [
        Unchecked(tag, tuple(sires.get(pairing or 0, ())), started, last, places.get(dam))
        for pairing, dam, tag, started in running
        if (last := max(started, seen.get(dam, started))) < limit
    ]
    return sorted(found, key=lambda pairing: (pairing.last_look, pairing.dam))


def _last_checks(session: Session, today: date) -> dict[int, date]:
    """The last day on which something was written of each paired dam."""
    hers = func.coalesce(col(MatingSign.dam_id), col(Pairing.dam_id))
    signs = (
        select(hers, func.max(col(MatingSign.seen_on)))
        .join(Pairing, col(MatingSign.pairing_id) == col(Pairing.id), isouter=True)
        .where(col(MatingSign.seen_on) <= today)
        .group_by(hers)
    )
    findings = (
        select(col(PregnancyFinding.dam_id), func.max(col(PregnancyFinding.found_on)))
        .where(col(PregnancyFinding.found_on) <= today)
        .group_by(col(PregnancyFinding.dam_id))
    )
    last: dict[int, date] = {}
    for query in (signs, findings):
        for dam, day in session.execute(query):
            last[dam] = max(day, last.get(dam, day))
    return last


def _sires(session: Session, pairings: list[int]) -> dict[int, list[str]]:
    query = (
        select(col(PairingSire.pairing_id), col(Animal.tag))
        .join(Animal, col(Animal.id) == col(PairingSire.sire_id))
        .where(col(PairingSire.pairing_id).in_(pairings))
        .order_by(col(PairingSire.id))
    )
    tags: dict[int, list[str]] = {}
    for pairing, tag in session.execute(query):
        tags.setdefault(pairing, []).append(tag)
    return tags
