"""The round as the book has it: places of work in walking order, rhythms, and what was done."""

from collections import defaultdict
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, timedelta

from sqlalchemy import func, select
from sqlmodel import Session, col

from colony.notation.care import TASKS, Task, house_task
from colony.planning.care.round import Rhythm, WorkEntry
from colony.planning.care.walking_order import Stop, WorkPlace, water_classes
from colony.records import (
    CareDone,
    CareRhythm,
    Hold,
    HouseTask,
    Placement,
    System,
    Tank,
    WaterRegime,
)
from colony.store.readers.animals.herd import lives_there
from colony.store.readers.tanks.house import TankRow, read_tanks

RECENT_DAYS = 7
"""Days that are read one by one; of what was done before, the last day is enough."""

LONGEST_RHYTHM_DAYS = 400
"""What was done longer ago is due again by every rhythm."""


@dataclass(frozen=True)
class Floor:
    """Every place where work is done, and the records behind their names."""

    places: tuple[WorkPlace, ...]
    tank_ids: dict[str, int]
    system_ids: dict[str, int]
    tasks: Mapping[str, Task]

    def task(self, name: str) -> Task:
        """A task by its name; one that is on no list any more is done at tanks."""
        return self.tasks.get(name, Task(name))


def read_floor(session: Session, today: date) -> Floor:
    """Read tanks in use and systems as places of work."""
    tanks = [row for row in read_tanks(session).values() if row.retired_on is None]
    lived_in, held = _lived_in(session, today), _held_tanks(session, today)
    stops = [Stop(r.plan.code, r.plan.system or "", r.plan.role, r.id in held) for r in tanks]
    classes = water_classes(stops)
    systems = {name: (key, started) for key, name, started in session.execute(_SYSTEMS)}
    of_tanks = [_tank_place(row, at, classes, lived_in) for at, row in enumerate(tanks)]
    of_systems = [
        _system_place(name, started, [place for place in of_tanks if place.system == name])
        for name, (_, started) in systems.items()
        if name in classes
    ]
    return Floor(
        places=(*of_tanks, *of_systems),
        tank_ids={row.plan.code: row.id for row in tanks},
        system_ids={name: key for name, (key, _) in systems.items()},
        tasks=read_tasks(session),
    )


def read_tasks(session: Session) -> dict[str, Task]:
    """Every task by its name: the usual ones, and then those of the house's own list."""
    rows = session.execute(select(col(HouseTask.name), col(HouseTask.per), col(HouseTask.caution)))
    own = [house_task(name, per, caution) for name, per, caution in rows]
    return TASKS | {task.name: task for task in sorted(own, key=lambda task: task.name)}


_SYSTEMS = select(col(System.id), col(System.name), col(System.started))


def read_rhythms(session: Session) -> list[Rhythm]:
    """Read every rhythm; batch changes of water have theirs from the system's regime."""
    query = (
        select(CareRhythm, col(Tank.code), col(System.name))
        .join(Tank, col(CareRhythm.tank_id) == col(Tank.id), isouter=True)
        .join(System, col(CareRhythm.system_id) == col(System.id), isouter=True)
    )
    own = [
        Rhythm(row.task, row.started, row.times_a_day, row.every_days, tank, system, row.role)
        for row, tank, system in session.execute(query)
    ]
    regimes = (
        select(col(System.name), col(WaterRegime.started), col(WaterRegime.every_days))
        .join(System, col(WaterRegime.system_id) == col(System.id))
        .where(col(WaterRegime.every_days).is_not(None))
    )
    return own + [
        Rhythm("water change", started, every_days=every or 1, system=name)
        for name, started, every in session.execute(regimes)
    ]


def read_written(
    session: Session, floor: Floor, today: date
) -> dict[tuple[str, str], list[WorkEntry]]:
    """Read what was done and skipped lately, by (task, name of the place)."""
    recent = today - timedelta(days=RECENT_DAYS)
    day, why = col(CareDone.done_on), col(CareDone.skipped_why)
    where = (col(CareDone.task), col(CareDone.tank_id), col(CareDone.system_id))
    names = {("tank", key): name for name, key in floor.tank_ids.items()}
    names |= {("system", key): name for name, key in floor.system_ids.items()}
    found: dict[tuple[str, str], list[WorkEntry]] = defaultdict(list)

    def keep(task: str, tank: int | None, system: int | None, entry: WorkEntry) -> None:
        name = names.get(("tank", tank) if tank is not None else ("system", system or 0))
        if name is not None:
            found[task, name].append(entry)

    daily = select(*where, why, day, func.count()).where(day.between(recent, today))
    for task, tank, system, reason, on, times in session.execute(daily.group_by(*where, why, day)):
        keep(task, tank, system, WorkEntry(on, times, reason))
    before = select(*where, func.max(day)).where(
        day < recent, day >= today - timedelta(days=LONGEST_RHYTHM_DAYS), why.is_(None)
    )
    for task, tank, system, on in session.execute(before.group_by(*where)):
        keep(task, tank, system, WorkEntry(on, times=_COMPLETE))
    return found


_COMPLETE = 99
"""Whether a day long ago was half done no longer matters."""


def _lived_in(session: Session, today: date) -> dict[int, tuple[int, date]]:
    query = (
        select(col(Placement.tank_id), func.count(), func.min(col(Placement.entered_on)))
        .where(lives_there(today))
        .group_by(col(Placement.tank_id))
    )
    return {tank: (animals, since) for tank, animals, since in session.execute(query)}


def _held_tanks(session: Session, today: date) -> set[int]:
    query = (
        select(col(Placement.tank_id))
        .join(Hold, col(Hold.animal_id) == col(Placement.animal_id))
        .where(
            col(Placement.left_on).is_(None),
            col(Hold.started) <= today,
            col(Hold.ended).is_(None) | (col(Hold.ended) > today),
        )
    )
    return set(session.scalars(query))


def _tank_place(
    row: TankRow, walk: int, classes: dict[str, int], lived_in: dict[int, tuple[int, date]]
) -> WorkPlace:
    animals, since = lived_in.get(row.id, (0, None))
    system = row.plan.system or ""
    return WorkPlace(
        row.plan.code, "tank", system, walk, classes[system], row.plan.role, animals, since
    )


def _system_place(name: str, started: date | None, tanks: list[WorkPlace]) -> WorkPlace:
    return WorkPlace(
        name=name,
        per="system",
        system=name,
        walk=min(tank.walk for tank in tanks),
        water=tanks[0].water,
        animals=sum(tank.animals for tank in tanks),
        since=started,
    )
