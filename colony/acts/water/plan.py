"""The water of today and this week: which system is changed when, by how much, in which order."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta
from math import ceil

from sqlmodel import Session

from colony.acts.litters.due import due_litters
from colony.acts.tanks.loads import read_house_today
from colony.acts.water.bad_values import read_source, water_to_mend
from colony.notation.cautions import ELECTRICITY, MAINS_WATER, OWN_TOOLS
from colony.notation.house import say_volume
from colony.planning.care.walking_order import ISOLATED, WorkPlace
from colony.planning.tanks.load import load
from colony.planning.water.demand import Demand, Draw
from colony.planning.water.needs import SystemWater, WeekRules, beyond_changes, demand_of
from colony.planning.water.plan import PlannedDay, WaterPlan, plan_water
from colony.planning.water.relief import Relief, relief
from colony.planning.water.reserve import Reserve
from colony.refusals.base import Advice, act
from colony.store.readers.care import read_floor
from colony.store.readers.tanks.house import TanksOnDay
from colony.store.readers.water import SystemRow, read_reserve, read_systems
from colony.store.settings import BookSettings, read_settings


@dataclass(frozen=True)
class ChangeLine:
    """One change of a day, in the order in which to do them."""

    order: int
    system: str
    tanks: list[str]
    litres: int
    percent: float
    minutes: int
    urgent: bool
    why: str
    part: bool


@dataclass(frozen=True)
class DayLine:
    """One day: what the reserve holds, what drips and is changed, and what is short."""

    on: date
    reserve_l: int | None
    drip_l: int
    left_l: int | None
    minutes: int
    short_l: int
    changes: tuple[ChangeLine, ...]


@dataclass(frozen=True)
class WaterWeek:
    """The plan, what is short by system, what would be enough, and what it cannot correct."""

    days: tuple[DayLine, ...]
    fits: bool
    short_l: dict[str, int]
    relief: Relief | None
    warnings: tuple[str | Advice, ...]
    cautions: tuple[str, ...] = (ELECTRICITY, MAINS_WATER, OWN_TOOLS)


def water_plan(session: Session, *, days: int = 7, today: date) -> WaterWeek:
    """Lay the changes of the coming days within the reserve.

    Urgent ones (a bad test, a tank above its load, a litter that is near) come first; on a
    day the clean systems are changed before the isolated ones.
    """
    settings, house = read_settings(session), read_house_today(session, today)
    places = {p.name: p for p in read_floor(session, today).places if p.per == "system"}
    rows = [row for row in read_systems(session, today) if row.name in places]
    known = [row for row in rows if row.volume_l]
    systems = _systems(session, known, house, today)
    rules = WeekRules(days=days, slack_days=settings.change_slack_days)
    demand = demand_of(systems, today, rules)
    reserve = read_reserve(session, settings, today)
    plan = plan_water(reserve or _unbounded(demand, days), demand, days)
    sheet = _Sheet(
        {system.name: system for system in systems}, places, _tank_codes(house), settings
    )
    return WaterWeek(
        days=tuple(sheet.day(day, today, bounded=reserve is not None) for day in plan.days),
        fits=plan.fits,
        short_l=plan.short_l,
        relief=None if plan.fits or reserve is None else relief(reserve, demand, days),
        warnings=(*_beyond_water(systems), *_unknown(rows), *_first_short(plan, today)),
    )


def _systems(
    session: Session, rows: Sequence[SystemRow], house: TanksOnDay, today: date
) -> list[SystemWater]:
    tests = water_to_mend(session, rows, today=today)
    settings = read_settings(session)
    limit, source = settings.load_limit, read_source(settings)
    too_full = {
        tank.plan.system or ""
        for tank in house.tanks.values()
        if (load(tank.plan, house.in_tank(tank.id)) or 0.0) > limit
    }
    litters = _litters(session, house, today)
    return [
        replace(
            _renewed(row, today),
            bad_tests=tests[row.name].bad,
            values=tests[row.name].values,
            source=source,
            too_full=row.name in too_full,
            litter_due=litters.get(row.name),
        )
        for row in rows
    ]


def _renewed(row: SystemRow, today: date) -> SystemWater:
    regime, water = row.regime, SystemWater(row.name, row.volume_l or 0)
    if regime is not None:
        water = replace(
            water,
            percent=regime.percent or 0.0,
            every_days=regime.every_days or water.every_days,
            most_percent_a_day=regime.most_percent_a_day,
            drip_l_a_day=regime.drip_l_a_day or 0,
        )
    return replace(water, last_change=row.last_change, changed_today=row.last_change == today)


def _litters(session: Session, house: TanksOnDay, today: date) -> dict[str, date]:
    """The first birth that is expected in each system."""
    system_of = {tank.plan.code: tank.plan.system or "" for tank in house.tanks.values()}
    found: dict[str, date] = {}
    for due in due_litters(session, today=today):
        if due.tank is not None:
            system = system_of[due.tank]
            found[system] = min(due.earliest, found.get(system, due.earliest))
    return found


def _tank_codes(house: TanksOnDay) -> dict[str, list[str]]:
    codes: dict[str, list[str]] = {}
    for tank in house.tanks.values():
        if tank.retired_on is None:
            codes.setdefault(tank.plan.system or "", []).append(tank.plan.code)
    return codes


def _unbounded(demand: Demand, days: int) -> Reserve:
    """Water that comes as it is used: there is always as much as all of it."""
    everything = sum(need.litres for need in demand.changes) + demand.drip_l_a_day * days
    return Reserve(everything, everything, everything)


@dataclass(frozen=True)
class _Sheet:
    """Writes planned days with names, minutes and the order of work."""

    systems: dict[str, SystemWater]
    places: dict[str, WorkPlace]
    tanks: dict[str, list[str]]
    settings: BookSettings

    def day(self, day: PlannedDay, today: date, *, bounded: bool) -> DayLine:
        changes = tuple(
            self._change(at, draw)
            for at, draw in enumerate(sorted(day.draws, key=self._order), start=1)
        )
        return DayLine(
            on=today + timedelta(days=day.day),
            reserve_l=day.level_l if bounded else None,
            drip_l=day.drip_l,
            left_l=day.level_l - day.drawn_l if bounded else None,
            minutes=sum(change.minutes for change in changes),
            short_l=day.short_l,
            changes=changes,
        )

    def _order(self, draw: Draw) -> tuple[int, bool, int]:
        place = self.places[draw.system]
        return place.water, not draw.urgent, place.walk

    def _change(self, order: int, draw: Draw) -> ChangeLine:
        pumped = ceil(draw.litres / self.settings.change_l_per_minute)
        isolated = self.places[draw.system].water == ISOLATED
        return ChangeLine(
            order=order,
            system=draw.system,
            tanks=self.tanks.get(draw.system, []),
            litres=draw.litres,
            percent=round(100 * draw.litres / self.systems[draw.system].volume_l, 1),
            minutes=self.settings.change_setup_minutes + pumped,
            urgent=draw.urgent,
            why=draw.why or ("isolated: last, with its own tools" if isolated else ""),
            part=draw.part,
        )


def _beyond_water(systems: Sequence[SystemWater]) -> list[str]:
    changed = [
        f"{system.name}: {test.parameter} was {test.value:.3g} and water was changed today: test it again."
        for system in systems
        for test in system.bad_tests
        if system.changed_today and test.diluted
    ]
    return changed + [
        f"{system.name}: {test.parameter} is {test.value:.3g}, which no change of water mends: {why}."
        for system in systems
        for test, why in beyond_changes(system)
    ]


def _unknown(rows: Sequence[SystemRow]) -> list[Advice]:
    unmeasured = [
        Advice(
            f"{row.name} has no volume in the book and is not planned: write it down.",
            (act("tank system", row.name, volume="2000L"),),
        )
        for row in rows
        if not row.volume_l
    ]
    unruled = [
        Advice(
            f"How {row.name} is changed is not in the book: set how much and how often.",
            (act("water regime", row.name, percent="25", every="7"),),
        )
        for row in rows
        if row.volume_l and row.regime is None
    ]
    return unmeasured + unruled


def _first_short(plan: WaterPlan, today: date) -> list[str]:
    short = [day for day in plan.days if day.short_l]
    return [
        f"{today + timedelta(days=day.day)} is {say_volume(day.short_l)} short of what it must have."
        for day in short[:1]
    ]
