"""Which grown males were with which dams, and on which days, as the book has it."""

from collections import defaultdict
from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass
from datetime import date, timedelta

from sqlalchemy import select
from sqlmodel import Session, col

from colony.planning.guards.judge import CHILD_SHARE
from colony.planning.litters.company import Company, Maturing, Span, Stay, grown_from, together
from colony.records import (
    Litter,
    Measurement,
    Pairing,
    PairingSire,
    Placement,
    PossibleSire,
    Tank,
)
from colony.store.readers.animals.herd import Herd, HerdRow
from colony.store.readers.animals.lives import Lives
from colony.store.readers.litters.dams import DamRecord, read_dams
from colony.store.readers.rows import read_rows

_A_DAY = timedelta(days=1)

FARTHEST_GESTATIONS = 2
"""Males who were with a dam longer ago than so many of the longest gestations sired nothing due."""

Stays = Mapping[int, list[Stay]]
Paired = Mapping[tuple[int, int], list[tuple[date, date | None]]]


def read_company(
    session: Session,
    herd: Herd,
    lives: Lives,
    *,
    days: Span,
    dams: Collection[int] | None = None,
) -> dict[int, list[Company]]:
    """Read the males that were with each dam between two days, by her id.

    A male of her species who shared her tank counts from when both were grown; a male of a
    pairing of hers whatever he is: he was put to her on purpose.

    Parameters
    ----------
    herd
        Everybody who counts: others are passed over.
    days
        The first and the last day; stays and pairings that lie outside are not read.
    dams
        Only these; without, every female of the herd.
    """
    since, until = days
    wanted = [row for row in herd.rows if row.sex == "F" and (dams is None or row.id in dams)]
    if not wanted:
        return {}
    stays = _read_stays(session, herd, lives, since, until)
    paired = _read_paired(session, until)
    pairs = sorted(_pairs(wanted, herd, stays, paired))
    grown = _read_grown(session, herd, lives, {each for pair in pairs for each in pair}, since)
    found: dict[int, list[Company]] = defaultdict(list)
    for dam, male in pairs:
        there = together(
            stays.get(dam, ()),
            stays.get(male, ()),
            paired.get((dam, male), ()),
            grown_from=max(grown[dam], grown[male]),
            last=until,
        )
        if there:
            found[dam].append(Company(male, there))
    return found


def read_expecting(
    session: Session, herd: Herd, lives: Lives, today: date, of: Collection[int] | None = None
) -> dict[int, DamRecord]:
    """Read what was seen of each dam, and the males that were with her, or with some, of late."""
    dams = read_dams(session, herd)
    recent = (recent_since(lives, today), today)
    for dam_id, males in read_company(session, herd, lives, days=recent, dams=of).items():
        dams.setdefault(dam_id, DamRecord()).company = males
    return dams


def recent_since(lives: Lives, today: date) -> date:
    """The first day on which a litter that is due may have been conceived."""
    longest = max(life.gestation().high_days for life in lives.by_species.values())
    return today - timedelta(days=round(FARTHEST_GESTATIONS * longest))


def _pairs(
    wanted: Iterable[HerdRow], herd: Herd, stays: Stays, paired: Paired
) -> set[tuple[int, int]]:
    """Every dam and male that a tank or a pairing brings together, whatever the days."""
    males: dict[tuple[str | None, str], list[int]] = defaultdict(list)
    for row in herd.rows:
        if row.sex == "M":
            for tank in _tanks(stays, row.id):
                males[row.species, tank].append(row.id)
    by_id = {row.id: row for row in wanted}
    met = {
        (dam, male)
        for dam, row in by_id.items()
        for tank in _tanks(stays, dam)
        for male in males.get((row.species, tank), ())
    }
    meant = {(dam, male) for dam, male in paired if dam in by_id and male in herd.position}
    return met | meant


def _tanks(stays: Stays, animal_id: int) -> set[str]:
    return {tank for tank, _, _ in stays.get(animal_id, ())}


def _read_stays(session: Session, herd: Herd, lives: Lives, since: date, until: date) -> Stays:
    """The tanks of everybody who was more than a child in them."""
    query = (
        select(
            col(Placement.animal_id),
            col(Tank.code),
            col(Placement.entered_on),
            col(Placement.left_on),
        )
        .join(Tank, col(Placement.tank_id) == col(Tank.id))
        .where(
            col(Placement.entered_on) <= until,
            col(Placement.left_on).is_(None) | (col(Placement.left_on) > since),
        )
        .order_by(col(Placement.entered_on))
    )
    stays: dict[int, list[Stay]] = defaultdict(list)
    for animal_id, tank, entered, left in read_rows(session, query):
        if animal_id not in herd.position:
            continue
        row = herd.by_id(animal_id)
        if row.sex == "U" or _is_child(row, lives, min(left or until, until)):
            continue
        # Who died or left is in its tank until that day only.
        gone = row.ended_on + _A_DAY if row.ended_on else None
        stays[animal_id].append((tank, entered, min(filter(None, (left, gone)), default=None)))
    return stays


def _is_child(row: HerdRow, lives: Lives, day: date) -> bool:
    if row.birthday is None:
        return False
    mature = lives.of(row.species).mature_age_days(row.sex)
    return (day - row.birthday.first).days < CHILD_SHARE * mature


def _read_paired(session: Session, until: date) -> Paired:
    query = (
        select(
            col(Pairing.dam_id), col(PairingSire.sire_id), col(Pairing.started), col(Pairing.ended)
        )
        .select_from(Pairing)
        .join(PairingSire, col(PairingSire.pairing_id) == col(Pairing.id))
        .where(col(Pairing.started) <= until)
    )
    paired: dict[tuple[int, int], list[tuple[date, date | None]]] = defaultdict(list)
    for dam, sire, started, ended in read_rows(session, query):
        paired[dam, sire].append((started, ended))
    return paired


def _read_grown(
    session: Session, herd: Herd, lives: Lives, ids: Collection[int], since: date
) -> dict[int, date]:
    """From when each of some animals may have been grown, by its id."""
    grown, doubtful = {}, []
    for row in (herd.by_id(each) for each in ids):
        old = _old_on(row, lives)
        if old is not None and old <= since:
            grown[row.id] = old
        else:
            doubtful.append(row)
    if not doubtful:
        return grown
    widths, bred = _read_widths(session, doubtful), _read_bred(session, doubtful)
    for row in doubtful:
        life = lives.of(row.species)
        proof = (
            [bred[row.id] - timedelta(days=round(life.gestation().low_days))]
            if row.id in bred
            else []
        )
        growing = Maturing(
            born=row.birthday.first if row.birthday else None,
            mature_age_days=life.mature_age_days(row.sex),
            widths=tuple(widths.get(row.id, ())),
            mature_width_mm=life.mature_width_mm(row.sex),
            seen_on=min([*proof, *([row.mature_since] if row.mature_since else [])], default=None),
        )
        grown[row.id] = grown_from(growing) or date.max
    return grown


def _old_on(row: HerdRow, lives: Lives) -> date | None:
    """The day on which it had the age of maturity, if its birth is known."""
    if row.birthday is None:
        return None
    return row.birthday.first + timedelta(days=lives.of(row.species).mature_age_days(row.sex))


def _read_widths(
    session: Session, rows: Iterable[HerdRow]
) -> Mapping[int, list[tuple[date, float]]]:
    query = (
        select(col(Measurement.animal_id), col(Measurement.measured_on), col(Measurement.width_mm))
        .where(
            col(Measurement.animal_id).in_([row.id for row in rows]),
            col(Measurement.width_mm).is_not(None),
        )
        .order_by(col(Measurement.measured_on))
    )
    widths: dict[int, list[tuple[date, float]]] = defaultdict(list)
    for animal_id, day, width_mm in read_rows(session, query):
        widths[animal_id].append((day, width_mm or 0))
    return widths


def _read_bred(session: Session, rows: Iterable[HerdRow]) -> dict[int, date]:
    """The first litter that each bore, or is the sole sire of."""
    ids = [row.id for row in rows]
    bore = select(col(Litter.dam_id), col(Litter.born)).where(col(Litter.dam_id).in_(ids))
    sired = (
        select(col(PossibleSire.sire_id), col(Litter.born))
        .join(Litter, col(PossibleSire.litter_id) == col(Litter.id))
        .where(col(PossibleSire.sire_id).in_(ids), col(PossibleSire.share) == 1)
    )
    first: dict[int, date] = {}
    for animal_id, born in (*read_rows(session, bore), *read_rows(session, sired)):
        if animal_id is not None:
            first[animal_id] = min(born, first.get(animal_id, born))
    return first


@dataclass(frozen=True)
class Housed:
    """When each animal was in any tank at all, as far as the book has it."""

    stays: Mapping[int, list[tuple[date, date | None]]]

    def on_some(self, animal_id: int, first: date, last: date) -> bool:
        """Whether it was in a tank on some of these days."""
        return any(
            entered <= last and (left is None or left > first)
            for entered, left in self.stays.get(animal_id, ())
        )


def read_housed(session: Session) -> Housed:
    """Read when everybody was in a tank."""
    stays: dict[int, list[tuple[date, date | None]]] = defaultdict(list)
    query = select(col(Placement.animal_id), col(Placement.entered_on), col(Placement.left_on))
    for animal_id, entered, left in read_rows(session, query):
        stays[animal_id].append((entered, left))
    return Housed(stays)
