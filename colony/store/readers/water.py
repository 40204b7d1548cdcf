"""The water of the house as the planner sees it: reserve, systems, tests and their limits."""

from collections import defaultdict
from collections.abc import Collection
from dataclasses import dataclass
from datetime import date, timedelta

from sqlalchemy import func, select
from sqlmodel import Session, col

from colony.planning.water.limits import USUAL_LIMITS, Limit, strictest
from colony.planning.water.reserve import Reserve, levels
from colony.records import (
    Animal,
    Placement,
    ReserveReading,
    Species,
    System,
    Tank,
    WaterChange,
    WaterLimit,
    WaterRegime,
    WaterTest,
)
from colony.store.readers.animals.herd import lives_there
from colony.store.settings import BookSettings

TEST_KEEPS_DAYS = 14
"""A test says nothing of the water of today after this many days; common practice, no source."""

FULL_DAYS_AGO = 30
"""A reserve that was never read is taken as full this long ago; common practice, no source."""


@dataclass(frozen=True)
class SystemRow:
    """One system: its record, its regime if it has one, and the last change of its water."""

    id: int
    name: str
    volume_l: int | None
    started: date | None
    regime: WaterRegime | None
    last_change: date | None


def read_systems(session: Session, today: date) -> list[SystemRow]:
    """Read every system, in walking order; its volume is its own, or that of its tanks."""
    walk = func.min(func.coalesce(col(Tank.walking_order), 1_000_000))
    last = _last_changes(session, today)
    query = (
        select(System, func.sum(col(Tank.volume_l)))
        .join(
            Tank,
            (col(Tank.system_id) == col(System.id)) & col(Tank.retired_on).is_(None),
            isouter=True,
        )
        .group_by(*System.__table__.columns)  # type: ignore[attr-defined]
        .order_by(walk, col(System.name))
    )
    regimes = {row.system_id: row for row in session.scalars(select(WaterRegime))}
    return [
        SystemRow(
            id=system.id or 0,
            name=system.name,
            volume_l=system.volume_l or tank_volume_l,
            started=system.started,
            regime=regimes.get(system.id or 0),
            last_change=last.get(system.id or 0),
        )
        for system, tank_volume_l in session.execute(query)
    ]


def _last_changes(session: Session, today: date) -> dict[int, date]:
    query = (
        select(col(WaterChange.system_id), func.max(col(WaterChange.changed_on)))
        .where(col(WaterChange.changed_on) <= today)
        .group_by(col(WaterChange.system_id))
    )
    return {system: day for system, day in session.execute(query)}  # noqa: C416 - rows become pairs


def read_reserve(session: Session, settings: BookSettings, today: date) -> Reserve | None:
    """The reserve this morning, less what was changed today; None where there is none.

    Its level follows from the last reading, or from a full reserve a month ago, through every
    change and drip since.
    """
    if not settings.reserve_l:
        return None
    start, level = _last_reading(session, settings, today)
    days = (today - start).days + 1
    drawn = _drawn(session, start, days)
    so_far = Reserve(settings.reserve_l, settings.reserve_refill_l, level)
    # More drawn than was there: the tap ran, or a reading is missing; the level is then nothing.
    for day, out in enumerate(drawn[:-1]):
        drawn[day] = min(out, max(0, levels(so_far, drawn)[day]))
    morning = levels(so_far, drawn)[-1]
    changed_today = _changes(session, today, today).get(today, 0)
    return Reserve(so_far.capacity_l, so_far.refill_l, max(0, morning - changed_today))


def _last_reading(session: Session, settings: BookSettings, today: date) -> tuple[date, int]:
    row = session.scalars(
        select(ReserveReading)
        .where(col(ReserveReading.read_on) <= today)
        .order_by(col(ReserveReading.read_on).desc())
        .limit(1)
    ).first()
    if row is None:
        return today - timedelta(days=FULL_DAYS_AGO), settings.reserve_l
    return row.read_on, min(row.litres, settings.reserve_l)


def _drawn(session: Session, start: date, days: int) -> list[int]:
    changes = _changes(session, start, start + timedelta(days=days))
    drips = list(session.scalars(select(WaterRegime).where(col(WaterRegime.drip_l_a_day) > 0)))
    drawn = []
    for day in (start + timedelta(days=n) for n in range(days)):
        dripped = sum(drip.drip_l_a_day or 0 for drip in drips if drip.started <= day)
        drawn.append(changes.get(day, 0) + dripped)
    return drawn


def _changes(session: Session, first: date, last: date) -> dict[date, int]:
    query = (
        select(col(WaterChange.changed_on), func.sum(col(WaterChange.litres)))
        .where(col(WaterChange.changed_on).between(first, last))
        .group_by(col(WaterChange.changed_on))
    )
    return {day: int(litres) for day, litres in session.execute(query)}


def read_changes_after(session: Session, system_id: int, day: date, today: date) -> list[int]:
    """Litres of each batch change of a system after a day."""
    query = select(col(WaterChange.litres)).where(
        col(WaterChange.system_id) == system_id,
        col(WaterChange.changed_on) > day,
        col(WaterChange.changed_on) <= today,
    )
    return list(session.scalars(query))


def read_last_tests(session: Session, today: date) -> dict[int, dict[str, tuple[date, float]]]:
    """The last value of each parameter of each system that still says something of today."""
    query = (
        select(
            col(WaterTest.system_id),
            col(WaterTest.parameter),
            col(WaterTest.tested_on),
            col(WaterTest.value),
        )
        .where(
            col(WaterTest.tested_on) <= today,
            col(WaterTest.tested_on) >= today - timedelta(days=TEST_KEEPS_DAYS),
        )
        .order_by(col(WaterTest.tested_on), col(WaterTest.id))
    )
    found: dict[int, dict[str, tuple[date, float]]] = defaultdict(dict)
    for system, parameter, day, value in session.execute(query):
        found[system][parameter] = (day, value)
    return found


def read_series(
    session: Session, parameters: Collection[str], *, until: date
) -> dict[tuple[str, str], list[tuple[date, float]]]:
    """Every value of some parameters, in order of day, by system and parameter."""
    query = (
        select(
            col(System.name),
            col(WaterTest.parameter),
            col(WaterTest.tested_on),
            col(WaterTest.value),
        )
        .join(System, col(WaterTest.system_id) == col(System.id))
        .where(col(WaterTest.parameter).in_(parameters), col(WaterTest.tested_on) <= until)
        .order_by(col(WaterTest.tested_on), col(WaterTest.id))
    )
    found: dict[tuple[str, str], list[tuple[date, float]]] = defaultdict(list)
    for system, parameter, day, value in session.execute(query):
        found[system, parameter].append((day, value))
    return found


def read_limits(session: Session, today: date) -> dict[int, dict[str, Limit]]:
    """The limits of each system: the strictest of the species that live in it today."""
    own: dict[str | None, dict[str, Limit]] = defaultdict(dict)
    query = select(WaterLimit, col(Species.name)).join(
        Species, col(WaterLimit.species_id) == col(Species.id), isouter=True
    )
    for row, species in session.execute(query):
        own[species][row.parameter] = Limit(row.parameter, row.low, row.high, row.source)
    for_all = {limit.parameter: limit for limit in USUAL_LIMITS} | own.get(None, {})
    return {
        system: strictest(
            limit for name in species or {None} for limit in (for_all | own.get(name, {})).values()
        )
        for system, species in _species_by_system(session, today).items()
    }


def _species_by_system(session: Session, today: date) -> dict[int, set[str | None]]:
    found: dict[int, set[str | None]] = {key: set() for key in session.scalars(_SYSTEM_IDS) if key}
    query = (
        select(col(Tank.system_id), col(Species.name))
        .join(Placement, col(Placement.tank_id) == col(Tank.id))
        .join(Animal, col(Placement.animal_id) == col(Animal.id))
        .join(Species, col(Animal.species_id) == col(Species.id), isouter=True)
        .where(lives_there(today))
        .distinct()
    )
    for system, species in session.execute(query):
        found[system].add(species)
    return found


_SYSTEM_IDS = select(col(System.id))
