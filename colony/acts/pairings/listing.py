"""Look at pairings: who is with whom."""

from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date

from sqlmodel import Session, col, select

from colony.records import MatingSign, Pairing, Tank
from colony.store.readers.animals.herd import read_herd, read_places
from colony.store.readers.litters.dams import read_pairing_sires


@dataclass(frozen=True)
class PairingLine:
    """One pairing in the list; `state` is planned while dam and sires are in different tanks."""

    dam: str
    sires: list[str]
    started: date
    ended: date | None
    tank: str | None
    purpose: str | None
    signs: list[str]
    state: str = "running"


def list_pairings(session: Session, *, all_: bool = False, today: date) -> list[PairingLine]:
    """Pairings that run, the newest first; or all that ever were."""
    places = read_places(session, today)
    herd, males = read_herd(session), read_pairing_sires(session)
    signs: dict[int, list[str]] = defaultdict(list)
    for sign in session.exec(select(MatingSign).order_by(col(MatingSign.seen_on))):
        signs[sign.pairing_id or 0].append(f"{sign.seen_on} {sign.kind}")
    codes = dict(session.exec(select(Tank.id, Tank.code)).all())
    query = select(Pairing).order_by(col(Pairing.started).desc(), col(Pairing.id).desc())
    return [
        PairingLine(
            dam=herd.by_id(pairing.dam_id).tag,
            sires=[herd.by_id(sire).tag for sire in males.get(pairing.id or 0, [])],
            started=pairing.started,
            ended=pairing.ended,
            tank=codes.get(pairing.tank_id),
            purpose=pairing.purpose,
            signs=signs.get(pairing.id or 0, []),
            state=_state(pairing, males.get(pairing.id or 0, []), places),
        )
        for pairing in session.exec(query)
        if all_ or pairing.ended is None
    ]


def _state(pairing: Pairing, males: Sequence[int], places: Mapping[int, str]) -> str:
    if pairing.ended is not None:
        return "ended"
    hers, theirs = places.get(pairing.dam_id), [places.get(male) for male in males]
    return "planned" if hers and all(theirs) and hers not in theirs else "running"
