"""Look into one tank, and try a move before it is made."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from sqlmodel import Session

from colony.acts.animals.search import ListedAnimal, who_are
from colony.acts.tanks.loads import TankLine, limits_of, read_house_today, tank_line
from colony.acts.tanks.placing import find_usable_tank, reasons_against
from colony.planning.tanks.limits import breaks
from colony.planning.tanks.load import Occupant, load
from colony.store.lookup import find_animal, find_tank
from colony.store.settings import read_settings


@dataclass(frozen=True)
class TankDetails:
    """One tank: its measures, its limits, and who is in it."""

    tank: str
    system: str
    role: str
    length_mm: float | None
    width_mm: float | None
    diameter_mm: float | None
    volume_l: int | None
    load: float | None
    load_limit: float
    isolated_until: date | None
    breaks: tuple[str, ...]
    occupants: tuple[ListedAnimal, ...]


def show_tank(session: Session, *, code: str, today: date) -> TankDetails:
    """One tank and its occupants; `NoSuchTank` where there is none."""
    found, settings = find_tank(session, code), read_settings(session)
    assert found.id is not None  # noqa: S101 - it was found in the book
    house = read_house_today(session, today)
    row, here = house.tanks[found.id], house.in_tank(found.id)
    ends = [animal.isolated_until for animal in here if animal.isolated_until]
    return TankDetails(
        tank=found.code,
        system=row.plan.system or "",
        role=row.plan.role,
        length_mm=row.plan.length_mm,
        width_mm=row.plan.width_mm,
        diameter_mm=row.plan.diameter_mm,
        volume_l=row.volume_l,
        load=load(row.plan, here),
        load_limit=settings.load_limit,
        isolated_until=max(ends, default=None),
        breaks=tuple(reason.sentence for reason in breaks(row.plan, here, limits_of(settings))),
        occupants=tuple(who_are(session, tags=[animal.tag for animal in here], today=today)),
    )


def tank_in_use(session: Session, *, code: str, today: date) -> TankLine:
    """How full a tank in use is; `NoSuchTank` and `TankRetired` refuse."""
    found = find_usable_tank(session, code)
    assert found.id is not None  # noqa: S101 - it was found in the book
    house = read_house_today(session, today)
    return tank_line(house, house.tanks[found.id], read_settings(session))


def why_not_move(
    session: Session, *, tags: Sequence[str], tank: str, today: date
) -> tuple[str, ...]:
    """Why these animals may not move into a tank; empty where they may. Nothing moves.

    Raises
    ------
    NoSuchTag, NoSuchTank, TankRetired
    """
    target = find_usable_tank(session, tank)
    house = read_house_today(session, today)
    coming = []
    for tag in tags:
        animal = find_animal(session, tag)
        here = house.in_tank(house.tank_of.get(animal.id or 0, 0))
        known = [occupant for occupant in here if occupant.tag == animal.tag]
        coming.append(known[0] if known else Occupant(animal.tag, None))
    return tuple(
        reason.sentence for reason in reasons_against(session, house, target, coming, today)
    )
