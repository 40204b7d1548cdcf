"""The load of every tank week by week, and the first day each limit breaks."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

import numpy as np

from colony.planning.arrays import Bools, Floats
from colony.planning.tanks.limits import (
    DEFAULT_LIMITS,
    SIZE_RULES,
    LimitBroken,
    Limits,
    why_isolation_breaks,
)
from colony.planning.tanks.load import TankFloor, disc_mm2
from colony.planning.tanks.occupancy import (
    Swimmer,
    days_from,
    occupant,
    present_on,
    widths_on,
)


@dataclass(frozen=True)
class Breach:
    """The first day on which a tank breaks a limit, and why."""

    day: date
    reason: LimitBroken


@dataclass(frozen=True)
class TankOutlook:
    """One tank in the weeks to come.

    `loads` holds the load today and after each week (None: the tank's size is not
    recorded), `animals` how many swim in it, `breaches` the first day of each broken limit.
    """

    tank: str
    role: str
    loads: tuple[float | None, ...]
    animals: tuple[int, ...]
    limit: float
    breaches: tuple[Breach, ...]

    @property
    def first_breach(self) -> Breach | None:
        """The breach that comes first."""
        return self.breaches[0] if self.breaches else None


@dataclass(frozen=True)
class _Days:
    """Widths and presence of a tank's animals on every day, and whether a limit may break."""

    dates: list[date]
    widths: Floats
    present: Bools


def outlook(
    tanks: Sequence[TankFloor],
    swimmers: Sequence[Swimmer],
    limits: Limits = DEFAULT_LIMITS,
    *,
    today: date,
    weeks: int = 26,
) -> tuple[TankOutlook, ...]:
    """Look ahead with growth, expected births and expected sales; nobody is moved.

    Parameters
    ----------
    tanks
        The tanks to report.
    swimmers
        All animals in them, those to come included.
    limits
        The limits of housing.
    today
        The first day.
    weeks
        How far to look.

    Returns
    -------
    tuple of TankOutlook
        In the order of `tanks`.
    """
    dates = days_from(today, weeks)
    widths, present = widths_on(swimmers, dates), present_on(swimmers, dates)
    rows: dict[str, list[int]] = {}
    for row, swimmer in enumerate(swimmers):
        rows.setdefault(swimmer.tank, []).append(row)
    found = []
    for tank in tanks:
        own = rows.get(tank.code, [])
        days = _Days(dates, widths[own], present[own])
        found.append(_tank_outlook(tank, [swimmers[row] for row in own], days, limits))
    return tuple(found)


def _tank_outlook(
    tank: TankFloor, swimmers: Sequence[Swimmer], days: _Days, limits: Limits
) -> TankOutlook:
    discs = np.where(days.present, disc_mm2(1.0) * days.widths**2, 0.0).sum(axis=0)
    loads = discs / tank.floor_mm2 if tank.floor_mm2 else None
    weekly = slice(None, None, 7)
    breaches = _size_breaches(tank, swimmers, days, limits) + _isolation_breaches(
        tank, swimmers, days
    )
    return TankOutlook(
        tank=tank.code,
        role=tank.role,
        loads=tuple(loads[weekly].tolist()) if loads is not None else (None,) * len(discs[weekly]),
        animals=tuple(days.present.sum(axis=0)[weekly].tolist()),
        limit=limits.load,
        breaches=tuple(sorted(breaches, key=lambda breach: breach.day)),
    )


def _size_breaches(
    tank: TankFloor, swimmers: Sequence[Swimmer], days: _Days, limits: Limits
) -> list[Breach]:
    found = []
    for name, suspect in _suspects(tank, days, limits).items():
        rule = SIZE_RULES[name]
        for column in np.flatnonzero(suspect):
            there = np.flatnonzero(days.present[:, column])
            occupants = [
                occupant(swimmers[n], float(days.widths[n, column])) for n in there.tolist()
            ]
            sentence = rule(tank, occupants, limits)
            if sentence:
                found.append(Breach(days.dates[column], LimitBroken(name, sentence)))
                break
    return found


def _suspects(tank: TankFloor, days: _Days, limits: Limits) -> dict[str, Bools]:
    """Find the days on which a limit may break: a quick check that never misses one."""
    sized = days.present & (days.widths > 0)
    widest = np.where(sized, days.widths, 0.0).max(axis=0, initial=0.0)
    narrowest = np.where(sized, days.widths, np.inf).min(axis=0, initial=np.inf)
    discs = np.where(sized, disc_mm2(1.0) * days.widths**2, 0.0).sum(axis=0)
    floor, long_side, short_side = (
        np.inf if side is None else side
        for side in (tank.floor_mm2, tank.long_side_mm, tank.short_side_mm)
    )
    hair = 1 - 1e-9
    return {
        "load": discs > hair * limits.load * floor,
        "tank_width": widest * limits.widths_across > hair * short_side,
        "tank_length": widest * limits.widths_along > hair * long_side,
        "size_spread": widest > hair * limits.size_spread * narrowest,
    }


def _isolation_breaches(tank: TankFloor, swimmers: Sequence[Swimmer], days: _Days) -> list[Breach]:
    """Find the first day an animal is there in isolation: its first day there."""
    found = []
    for swimmer, there in zip(swimmers, days.present, strict=True):
        if there.any() and swimmer.isolated_until is not None:
            day = days.dates[int(there.argmax())]
            reason = why_isolation_breaks(tank, [occupant(swimmer, 0.0)], day)
            found += [Breach(day, reason)] if reason else []
    return sorted(found, key=lambda breach: breach.day)[:1]
