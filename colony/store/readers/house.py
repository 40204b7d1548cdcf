"""The house as it stands on a day: every tank, who is in it, and who is isolated until when."""

from dataclasses import dataclass, replace
from datetime import date

from sqlalchemy import func, select
from sqlmodel import Session, col

from colony.planning.load import Occupant, isolating
from colony.planning.load import Tank as TankPlan
from colony.records import Placement, System, Tank
from colony.store.readers.herd import Herd, read_last_widths_mm
from colony.store.readers.isolation import read_clocks
from colony.store.readers.lives import Lives
from colony.store.settings import BookSettings


@dataclass(frozen=True)
class TankRow:
    """One tank: its record's facts, and the shape that the limits are tried on."""

    id: int
    plan: TankPlan
    walking_order: int | None
    volume_l: int | None
    retired_on: date | None


@dataclass(frozen=True)
class House:
    """All tanks by id in walking order, and the occupants of each."""

    tanks: dict[int, TankRow]
    occupants: dict[int, tuple[Occupant, ...]]
    tank_of: dict[int, int]

    def in_tank(self, tank_id: int) -> tuple[Occupant, ...]:
        """Who is in a tank."""
        return self.occupants.get(tank_id, ())

    def isolated_until(self, animal_id: int, tag: str) -> date | None:
        """The first day that an animal is out of isolation, if it is in isolation."""
        tank = self.tank_of.get(animal_id)
        here = () if tank is None else self.in_tank(tank)
        return next((one.isolated_until for one in here if one.tag == tag), None)


def read_house(
    session: Session, herd: Herd, lives: Lives, settings: BookSettings, today: date
) -> House:
    """Read the tanks and their occupants on a day; a pup not yet measured counts at birth width."""
    tanks = read_tanks(session)
    placed = _read_placed(session, today)
    free_from = _isolation_ends(session, tanks, settings, today)
    widths_mm = read_last_widths_mm(session)
    occupants: dict[int, tuple[Occupant, ...]] = {}
    for animal_id, tank_id in placed.items():
        row = herd.by_id(animal_id)
        width_mm = widths_mm[animal_id][1] if animal_id in widths_mm else None
        if width_mm is None and row.litter_id is not None:
            width_mm = round(lives.of(row.species).traits["birth_width_mm"])
        family = f"litter {row.litter_id}" if row.litter_id else ""
        one = Occupant(row.tag, width_mm, free_from.get(tank_id), family)
        occupants[tank_id] = (*occupants.get(tank_id, ()), one)
    return House(tanks, occupants, placed)


def read_tanks(session: Session) -> dict[int, TankRow]:
    """Read every tank by id, in the order in which the breeder walks past them."""
    query = (
        select(Tank, col(System.name))
        .join(System, col(Tank.system_id) == col(System.id))
        .order_by(
            func.coalesce(col(Tank.walking_order), 1_000_000), col(System.name), col(Tank.code)
        )
    )
    rows = {tank.id: _tank_row(tank, system) for tank, system in session.execute(query)}
    isolated = isolating(row.plan for row in rows.values())
    return {
        tank_id: replace(row, plan=replace(row.plan, isolates=row.plan.code in isolated))
        for tank_id, row in rows.items()
    }


def _tank_row(tank: Tank, system: str) -> TankRow:
    plan = TankPlan(
        code=tank.code,
        length_mm=tank.length_mm,
        width_mm=tank.width_mm,
        diameter_mm=tank.diameter_mm,
        role=tank.role,
        system=system,
    )
    assert tank.id is not None  # noqa: S101 - it was read from the book
    return TankRow(tank.id, plan, tank.walking_order, tank.volume_l, tank.retired_on)


def _read_placed(session: Session, today: date) -> dict[int, int]:
    query = select(col(Placement.animal_id), col(Placement.tank_id)).where(
        col(Placement.entered_on) <= today,
        col(Placement.left_on).is_(None) | (col(Placement.left_on) > today),
    )
    return dict(session.execute(query).tuples().all())


def _isolation_ends(
    session: Session, tanks: dict[int, TankRow], settings: BookSettings, today: date
) -> dict[int, date]:
    """Per intake tank, the day its isolation ends: the newest arrival in its water restarts it."""
    intake = intake_systems(tanks)
    clocks = read_clocks(session, intake, settings.isolation_days, today)
    return {tank: clocks[system].until for tank, system in intake.items() if system in clocks}


def intake_systems(tanks: dict[int, TankRow]) -> dict[int, str]:
    """The system of each intake tank, by the tank's id."""
    return {key: row.plan.system or "" for key, row in tanks.items() if row.plan.role == "intake"}
