"""Which pairings ask for a look: nothing was seen of the dam for some weeks."""

from dataclasses import dataclass
from datetime import date, timedelta

from sqlmodel import Session

from colony.store.readers.dams import DamRecord, read_dams, read_pairing_sires
from colony.store.readers.herd import read_herd, read_places

LOOK_EVERY_DAYS = 28
"""How long a paired female goes without a look; common practice, no source."""


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
    herd, males = read_herd(session), read_pairing_sires(session)
    places, limit = read_places(session, today), today - timedelta(days=LOOK_EVERY_DAYS)
    found = []
    for dam_id, record in read_dams(session, herd).items():
        pairing = record.pairing_before(today)
        row = herd.by_id(dam_id)
        if pairing is None or pairing.ended is not None or row.status != "present":
            continue
        last = max(pairing.started, _last_look(record, today) or date.min)
        if last < limit:
            sires = tuple(herd.by_id(one).tag for one in males.get(pairing.id or 0, []))
            found.append(Unchecked(row.tag, sires, pairing.started, last, places.get(dam_id)))
    return sorted(found, key=lambda one: (one.last_look, one.dam))


def _last_look(record: DamRecord, today: date) -> date | None:
    seen = [one.seen_on for one in record.signs] + [one.found_on for one in record.findings]
    return max((day for day in seen if day <= today), default=None)
