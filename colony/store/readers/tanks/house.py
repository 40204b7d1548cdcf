"""The house as it stands on a day: every tank, who is in it, and who is isolated until when."""

from dataclasses import dataclass, replace
from datetime import date
from typing import Any, NamedTuple

from sqlalchemy import func, select
from sqlmodel import Session, col

from colony.planning.tanks.load import Occupant, isolating
from colony.planning.tanks.load import TankFloor as TankPlan
from colony.records import Animal, Litter, Measurement, Placement, Species, System, Tank
from colony.store.readers.animals.herd import lives_there, read_last_widths_mm
from colony.store.readers.animals.lives import Lives
from colony.store.readers.rows import read_rows
from colony.store.readers.tanks.isolation import read_clocks
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
class TanksOnDay:
    """All tanks by id in walking order, and the occupants of each."""

    tanks: dict[int, TankRow]
    occupants: dict[int, tuple[Occupant, ...]]
    tank_of: dict[int, int]

    def in_tank(self, tank_id: int) -> tuple[Occupant, ...]:
        """Who is in a tank."""
        return self.occupants.get(tank_id, ())

    def with_family(self, tag: str, family: str) -> "TanksOnDay":
        """The same house, one animal of another family."""
        occupants = {
            tank: tuple(replace(o, family=family) if o.tag == tag else o for o in here)
            for tank, here in self.occupants.items()
        }
        return replace(self, occupants=occupants)

    def isolated_until(self, animal_id: int, tag: str) -> date | None:
        """The first day that an animal is out of isolation, if it is in isolation."""
        tank = self.tank_of.get(animal_id)
        here = () if tank is None else self.in_tank(tank)
        return next((occupant.isolated_until for occupant in here if occupant.tag == tag), None)


class _Placed(NamedTuple):
    """One animal where it is."""

    id: int
    tank_id: int
    tag: str
    litter_id: int | None
    species: str | None


def read_house(session: Session, lives: Lives, settings: BookSettings, today: date) -> TanksOnDay:
    """Read the tanks and their occupants on a day; a pup not yet measured counts at birth width."""
    tanks = read_tanks(session)
    placed = _read_placed(session, today)
    free_from = _isolation_ends(session, tanks, settings, today)
    widths_mm = read_last_widths_mm(
        session,
        col(Measurement.animal_id).in_(select(col(Placement.animal_id)).where(lives_there(today))),
    )
    bore = _last_litters(session)
    occupants: dict[int, tuple[Occupant, ...]] = {}
    for row in placed:
        width_mm = widths_mm[row.id][1] if row.id in widths_mm else None
        if width_mm is None and row.litter_id is not None:
            width_mm = round(lives.of(row.species).traits["birth_width_mm"])
        family = (
            f"litter {bore.get(row.id, row.litter_id)}" if row.id in bore or row.litter_id else ""
        )
        occupant = Occupant(row.tag, width_mm, free_from.get(row.tank_id), family)
        occupants[row.tank_id] = (*occupants.get(row.tank_id, ()), occupant)
    return TanksOnDay(tanks, occupants, {row.id: row.tank_id for row in placed})


def _last_litters(session: Session) -> dict[int, int]:
    """The last litter of each dam who is here, by her id."""
    here = select(col(Placement.animal_id)).where(col(Placement.left_on).is_(None))
    query = (
        select(col(Litter.dam_id), col(Litter.id))
        .where(col(Litter.dam_id).in_(here))
        .order_by(col(Litter.born))
    )
    return {dam: litter for dam, litter in read_rows(session, query) if litter is not None}


def read_tanks(session: Session) -> dict[int, TankRow]:
    """Read every tank by id, in the order in which the breeder walks past them."""
    query = (
        select(*(col(column) for column in _TANK_COLUMNS))
        .join(System, col(Tank.system_id) == col(System.id))
        .order_by(
            func.coalesce(col(Tank.walking_order), 1_000_000), col(System.name), col(Tank.code)
        )
    )
    rows = {row.id: row for row in (_tank_row(*facts) for facts in read_rows(session, query))}
    isolated = isolating(row.plan for row in rows.values())
    return {
        tank_id: replace(row, plan=replace(row.plan, isolates=row.plan.code in isolated))
        for tank_id, row in rows.items()
    }


_TANK_COLUMNS: tuple[Any, ...] = (
    *(Tank.id, Tank.walking_order, Tank.volume_l, Tank.retired_on),
    *(Tank.code, Tank.length_mm, Tank.width_mm, Tank.diameter_mm, Tank.role, System.name),
)


def _tank_row(
    tank_id: int,
    walking_order: int | None,
    volume_l: int | None,
    retired_on: date | None,
    *plan: Any,  # noqa: ANN401 - the columns of a plan, in its order
) -> TankRow:
    return TankRow(tank_id, TankPlan(*plan), walking_order, volume_l, retired_on)


def _read_placed(session: Session, today: date) -> list[_Placed]:
    columns: tuple[Any, ...] = (
        *(Placement.animal_id, Placement.tank_id),
        *(Animal.tag, Animal.litter_id, Species.name),
    )
    query = (
        select(*(col(column) for column in columns))
        .join(Animal, col(Placement.animal_id) == col(Animal.id))
        .join(Species, col(Animal.species_id) == col(Species.id), isouter=True)
        .where(lives_there(today))
        .order_by(col(Placement.id))
    )
    return list(map(_Placed._make, read_rows(session, query)))


def _isolation_ends(
    session: Session, tanks: dict[int, TankRow], settings: BookSettings, today: date
) -> dict[int, date]:
    """Per intake tank, the day its isolation ends: the newest arrival in its water restarts it."""
    intake = intake_systems(tanks)
    clocks = read_clocks(session, intake, settings.isolation_days, today)
    return {tank: clocks[system].until for tank, system in intake.items() if system in clocks}


def read_isolated(session: Session, settings: BookSettings, today: date) -> dict[int, date]:
    """The first day out of isolation of everybody who is in an intake tank, by animal id."""
    ends = _isolation_ends(session, read_tanks(session), settings, today)
    query = select(col(Placement.animal_id), col(Placement.tank_id)).where(
        col(Placement.tank_id).in_(ends), lives_there(today)
    )
    return {animal: ends[tank] for animal, tank in read_rows(session, query)} if ends else {}


def intake_systems(tanks: dict[int, TankRow]) -> dict[int, str]:
    """The system of each intake tank, by the tank's id."""
    return {key: row.plan.system or "" for key, row in tanks.items() if row.plan.role == "intake"}
