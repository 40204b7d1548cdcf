"""The state of the day: who is due, who is ready, what is overdue."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, timedelta

from sqlmodel import Session

from colony.acts.care.work import WorkLine, overdue_work
from colony.acts.health.alarms import Known, alarms_of
from colony.acts.litters.due import DueLitter, due_litters
from colony.acts.orders.work import orders_today
from colony.acts.pups.ready import ready_of
from colony.acts.tanks.loads import TankLine, limits_of, tank_lines
from colony.planning.alarms.alarms import Alarm
from colony.planning.orders.work import OrderWork
from colony.planning.pups.gates import PupFacts
from colony.planning.pups.growth_flags import OffCurve
from colony.planning.pups.growth_status import growth_status
from colony.planning.pups.readiness import Readiness
from colony.planning.tanks.overflow import Overflow, overflowing
from colony.store.readers.animals.lives import read_lives
from colony.store.readers.pups.growing import read_pups
from colony.store.readers.tanks.house import read_house
from colony.store.settings import read_settings

SOON_DAYS = 42
"""How far ahead a birth is news."""

OVERFLOW_DAYS = 14
"""How far ahead a tank that overflows is news."""


@dataclass(frozen=True)
class Unmeasured:
    """A growing pup that was not measured for longer than the book wants."""

    tag: str
    tank: str
    last: date | None


@dataclass(frozen=True)
class State:
    """What the breeder wants to know first in the morning."""

    today: date
    alarms: tuple[Alarm, ...]
    due: tuple[DueLitter, ...]
    ready: tuple[Readiness, ...]
    unmeasured: tuple[Unmeasured, ...]
    overfull: tuple[TankLine, ...]
    isolated: tuple[TankLine, ...]
    overdue: tuple[WorkLine, ...] = ()
    off_curve: tuple[OffCurve, ...] = ()
    overflowing: tuple[Overflow, ...] = ()
    orders: tuple[OrderWork, ...] = ()


def state_of_the_day(session: Session, *, today: date) -> State:
    """Everything that asks for a hand today."""
    lives, settings = read_lives(session), read_settings(session)
    house = read_house(session, lives, settings, today)
    tanks, pups = tank_lines(house, settings), read_pups(session, lives, today, house)
    soon = today + timedelta(days=SOON_DAYS)
    growth = growth_status(pups, today)
    due = due_litters(session, today=today)
    return State(
        today=today,
        alarms=alarms_of(
            session, Known(today, settings, lives, house, pups, due, _still(growth.off))
        ),
        due=tuple(litter for litter in due if litter.earliest <= soon),
        ready=tuple(ready_of(pups, lives, today)),
        unmeasured=tuple(_unmeasured(pups, settings.measure_every_days, today)),
        overfull=tuple(tank for tank in tanks if tank.breaks),
        isolated=tuple(
            tank for tank in tanks if tank.isolated_until and tank.isolated_until > today
        ),
        overdue=tuple(overdue_work(session, today=today)),
        off_curve=growth.off,
        orders=tuple(orders_today(session, today=today)),
        overflowing=overflowing(
            ((tank.plan, house.in_tank(tank.id)) for tank in house.tanks.values()),
            growth.curves,
            limits_of(settings),
            day=today + timedelta(days=OVERFLOW_DAYS),
        ),
    )


def alarms_today(session: Session, *, today: date) -> tuple[Alarm, ...]:
    """The dangers of the day alone, for who walks the round."""
    lives, settings = read_lives(session), read_settings(session)
    house = read_house(session, lives, settings, today)
    pups, due = read_pups(session, lives, today, house), due_litters(session, today=today)
    still = _still(growth_status(pups, today).off)
    return alarms_of(session, Known(today, settings, lives, house, pups, due, still))


def _still(off: Iterable[OffCurve]) -> list[OffCurve]:
    return [each for each in off if each.kind == "stands still"]


def _unmeasured(pups: Iterable[PupFacts], every_days: int, today: date) -> list[Unmeasured]:
    limit = today - timedelta(days=every_days)
    late = []
    for pup in pups:
        last = max((width.day for width in (*pup.widths, *pup.doubtful)), default=None)
        since = last or pup.born
        if since is not None and since < limit:
            late.append(Unmeasured(pup.tag, pup.tank, last))
    return sorted(late, key=lambda pup: (pup.last or date.min, pup.tag))
