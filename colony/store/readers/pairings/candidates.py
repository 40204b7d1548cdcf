"""Every animal as the rules of pairing see it."""

from collections import defaultdict
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date

from sqlalchemy import select
from sqlmodel import Session, col

from colony.planning.pairings.eligibility import Candidate
from colony.records import Animal, Hold, Measurement, PossibleSire
from colony.store.readers.animals.herd import Herd, HerdRow, read_last_widths_mm
from colony.store.readers.animals.lives import Lives, read_lives
from colony.store.readers.litters.company import read_expecting
from colony.store.readers.litters.dams import DamRecord, read_pairing_sires
from colony.store.readers.litters.due import likely_births
from colony.store.readers.tanks.house import read_isolated
from colony.store.settings import read_settings


@dataclass(frozen=True)
class _Seen:
    """What the candidates are made from, read once."""

    herd: Herd
    lives: Lives
    isolated: Mapping[int, date]
    dams: Mapping[int, DamRecord]
    due: Mapping[int, date]
    partners: Mapping[int, list[str]]
    widths_mm: Mapping[int, tuple[date, int]]
    holds: Mapping[int, str]
    proven: frozenset[int]


def read_candidates(
    session: Session, herd: Herd, today: date, *, of: frozenset[int]
) -> dict[int, Candidate]:
    """Read some animals as candidates for pairing, by animal id, in the order of the herd."""
    lives, settings = read_lives(session), read_settings(session)
    dams = read_expecting(session, herd, lives, today, of)
    present = select(col(Animal.id)).where(col(Animal.status) == "present")
    seen = _Seen(
        herd=herd,
        lives=lives,
        isolated=read_isolated(session, settings, today),
        dams=dams,
        due=likely_births(herd, dams, lives, of=of, today=today),
        partners=_partners(herd, dams, read_pairing_sires(session), today),
        widths_mm=read_last_widths_mm(session, col(Measurement.animal_id).in_(present)),
        holds=_holds(session, today),
        proven=_proven(session, dams),
    )
    return {row.id: _candidate(row, seen, today) for row in herd.rows if row.id in of}


def _candidate(row: HerdRow, seen: _Seen, today: date) -> Candidate:
    if row.status != "present":
        # That is reason enough against it.
        return Candidate(
            tag=row.tag,
            sex=row.sex,
            species=row.species,
            line=row.line,
            status=row.status,
            status_since=row.ended_on,
            mature_seen=True,
        )
    life = seen.lives.of(row.species)
    width_on, width_mm = seen.widths_mm.get(row.id, (None, None))
    record = seen.dams.get(row.id)
    return Candidate(
        tag=row.tag,
        sex=row.sex,
        species=row.species,
        line=row.line,
        status=row.status,
        status_since=row.ended_on,
        age_days=(today - min(row.birthday.last, today)).days if row.birthday else None,
        mature_age_days=life.mature_age_days(row.sex),
        width_mm=width_mm,
        width_on=width_on,
        mature_width_mm=life.mature_width_mm(row.sex),
        mature_seen=row.id in seen.proven or row.mature_since is not None,
        held=seen.holds.get(row.id),
        isolated_until=seen.isolated.get(row.id),
        due=seen.due.get(row.id),
        last_birth=max((litter.born for litter in record.births), default=None) if record else None,
        rest_days=round(life.traits["rest_days"]),
        in_pairing_with=tuple(seen.partners.get(row.id, ())),
        breeding_ban=row.breeding_ban,
    )


def _partners(
    herd: Herd, dams: Mapping[int, DamRecord], males: Mapping[int, list[int]], today: date
) -> dict[int, list[str]]:
    """Who is kept with whom on a day."""
    partners: dict[int, list[str]] = defaultdict(list)
    for dam_id, record in dams.items():
        for pairing in record.pairings:
            if pairing.started <= today and (pairing.ended is None or pairing.ended > today):
                for male in males.get(pairing.id, ()):
                    partners[dam_id].append(herd.by_id(male).tag)
                    partners[male].append(herd.by_id(dam_id).tag)
    return partners


def _holds(session: Session, today: date) -> dict[int, str]:
    query = select(col(Hold.animal_id), col(Hold.why)).where(
        col(Hold.started) <= today, col(Hold.ended).is_(None) | (col(Hold.ended) > today)
    )
    return dict(session.execute(query).all())


def _proven(session: Session, dams: Mapping[int, DamRecord]) -> frozenset[int]:
    """Who gave birth, or is the sole recorded sire of a litter."""
    sires = select(col(PossibleSire.sire_id)).where(
        col(PossibleSire.share) == 1, col(PossibleSire.litter_id).is_not(None)
    )
    mothers = {dam for dam, record in dams.items() if record.births}
    return frozenset(mothers | {sire for (sire,) in session.execute(sires) if sire})
