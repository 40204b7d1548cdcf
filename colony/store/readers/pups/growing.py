"""Every growing pup as the gates of readiness see it."""

from collections import defaultdict
from datetime import date, timedelta

from sqlalchemy import ColumnElement, select
from sqlmodel import Session, col

from colony.planning.pups.feeding import FoodOffered as Fed
from colony.planning.pups.gates import PupFacts
from colony.planning.pups.growth import Width
from colony.planning.pups.growth_flags import trusted_widths
from colony.records import Animal, Feeding, Hold, Litter, Measurement
from colony.store.readers.animals.herd import read_herd
from colony.store.readers.animals.lives import Lives
from colony.store.readers.orders.kept import read_kept
from colony.store.readers.rows import read_rows
from colony.store.readers.tanks.house import TanksOnDay, read_house
from colony.store.settings import read_settings


def read_pups(
    session: Session, lives: Lives, today: date, house: TanksOnDay | None = None
) -> list[PupFacts]:
    """What the gates need to know of every growing pup; `house` if it was read already."""
    herd = read_herd(session, *_PUP)
    house = house or read_house(session, lives, read_settings(session), today)
    widths, feedings = read_widths(session, *_PUP), _feedings(session)
    held, kept = read_holds(session, today), read_kept(session, today)
    codes = dict(read_rows(session, select(col(Litter.id), col(Litter.code))))
    found = []
    for row in herd.rows:
        trusted = trusted_widths(widths.get(row.id, ()))
        widest_mm = max((width.width_mm for width in trusted.kept), default=0)
        if widest_mm >= lives.of(row.species).mature_width_mm(row.sex):
            continue
        tank = house.tank_of.get(row.id)
        pup = PupFacts(
            tag=row.tag,
            species=row.species or "",
            sex=row.sex,
            born=row.birthday.last if row.birthday else None,
            widths=trusted.kept,
            doubtful=trusted.doubtful,
            feedings=tuple(feedings.get(row.id, ())),
            held=row.id in held,
            held_until=held.get(row.id),
            held_back=row.held_back,
            reserved=row.id in kept,
            reserved_for=kept[row.id].buyer if row.id in kept else "",
            line=row.line,
            isolated_until=house.isolated_until(row.id, row.tag),
            prior=lives.of(row.species).growth(row.sex),
            litter=codes.get(row.litter_id) or "",
            tank=house.tanks[tank].plan.code if tank is not None else "",
        )
        found.append(pup)
    return found


_PUP = (col(Animal.status) == "present", col(Animal.litter_id).is_not(None))


def read_widths(session: Session, *of: ColumnElement[bool]) -> dict[int, list[Width]]:
    """Every measured disc width, by animal id, in order of date; `of` narrows whose."""
    rows: dict[int, list[Width]] = defaultdict(list)
    query = (
        select(col(Measurement.animal_id), col(Measurement.measured_on), col(Measurement.width_mm))
        .join(Animal, col(Measurement.animal_id) == col(Animal.id))
        .where(col(Measurement.width_mm).is_not(None), *of)
        .order_by(col(Measurement.measured_on))
    )
    for animal_id, day, width_mm in read_rows(session, query):
        rows[animal_id].append(Width(day, width_mm or 0))
    return rows


def _feedings(session: Session) -> dict[int, list[Fed]]:
    rows: dict[int, list[Fed]] = defaultdict(list)
    query = (
        select(col(Feeding.animal_id), col(Feeding.fed_on), col(Feeding.food), col(Feeding.took))
        .join(Animal, col(Feeding.animal_id) == col(Animal.id))
        .where(*_PUP)
        .order_by(col(Feeding.fed_on))
    )
    for animal_id, day, food, took in read_rows(session, query):
        rows[animal_id].append(Fed(day, food, took))
    return rows


def read_holds(session: Session, today: date) -> dict[int, date | None]:
    """Who is held on a day, and the last day of the hold if that is known."""
    query = select(col(Hold.animal_id), col(Hold.ended)).where(
        col(Hold.started) <= today, col(Hold.ended).is_(None) | (col(Hold.ended) > today)
    )
    return {
        animal: ended - timedelta(days=1) if ended else None
        for animal, ended in read_rows(session, query)
    }
