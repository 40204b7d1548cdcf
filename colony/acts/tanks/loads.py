"""How full each tank is, and which limits it breaks."""

from dataclasses import dataclass
from datetime import date

from sqlmodel import Session

from colony.planning.tanks.limits import Limits, breaks
from colony.planning.tanks.load import load
from colony.store.readers.animals.lives import read_lives
from colony.store.readers.tanks.house import TankRow, TanksOnDay, read_house
from colony.store.settings import BookSettings, read_settings


@dataclass(frozen=True)
class TankLine:
    """One tank in the list: who is in it and how full it is."""

    tank: str
    system: str
    role: str
    animals: list[str]
    load: float | None
    load_limit: float
    isolated_until: date | None
    breaks: list[str]


def list_tanks(session: Session, *, today: date) -> list[TankLine]:
    """Every tank in use, in walking order, with its load and the limits it breaks."""
    return tank_lines(read_house_today(session, today), read_settings(session))


def tank_lines(house: TanksOnDay, settings: BookSettings) -> list[TankLine]:
    """A line for each tank of a house that is in use."""
    return [
        tank_line(house, tank, settings) for tank in house.tanks.values() if tank.retired_on is None
    ]


def tank_line(house: TanksOnDay, tank: TankRow, settings: BookSettings) -> TankLine:
    """How full one tank is, and which limits it breaks."""
    here = house.in_tank(tank.id)
    filled = load(tank.plan, here)
    return TankLine(
        tank=tank.plan.code,
        system=tank.plan.system or "",
        role=tank.plan.role,
        animals=[animal.tag for animal in here],
        load=None if filled is None else round(filled, 4),
        load_limit=settings.load_limit,
        isolated_until=max(
            (animal.isolated_until for animal in here if animal.isolated_until), default=None
        ),
        breaks=[reason.sentence for reason in breaks(tank.plan, here, limits_of(settings))],
    )


def read_house_today(session: Session, today: date) -> TanksOnDay:
    """The house as it stands."""
    return read_house(session, read_lives(session), read_settings(session), today)


def limits_of(settings: BookSettings) -> Limits:
    """The limits of housing as this book sets them."""
    return Limits(
        load=settings.load_limit,
        widths_across=settings.widths_across,
        widths_along=settings.widths_along,
        size_spread=settings.size_spread,
    )
