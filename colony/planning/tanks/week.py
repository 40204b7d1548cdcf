"""One week of the house as arrays: who is where, how wide, and what each tank can bear.

The limits must hold on every day of the week, so an animal counts with its width at the
week's end where large is bad, and with that at its beginning where small is bad.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta
from math import inf

import numpy as np

from colony.planning.arrays import Bools, Floats, Index
from colony.planning.tanks.limits import Limits
from colony.planning.tanks.load import ISOLATING_ROLES, TankFloor, disc_mm2
from colony.planning.tanks.occupancy import Swimmer, present_on, widths_on

SLACK = 1e-9
"""Share by which a limit may be overrun in floating point."""


@dataclass(frozen=True)
class HouseWeek:
    """The animals of one week (n) and the tanks (m).

    `pinned` and `sellable` say who is not to be moved and who may be sold to make room (born,
    and meant for sale); `kin` numbers the litters whose sizes are not held against each other.
    `home` is the tank index of each animal; `large_mm` and `small_mm` its widths at the end
    and the beginning; `disc_mm2` its area at the end; `may_go` (n, m) where it may be moved by
    role, size and isolation; `home_closed` (n,) whether its own tank is closed to it.
    """

    begins: date
    tanks: tuple[TankFloor, ...]
    swimmers: tuple[Swimmer, ...]
    limits: Limits
    pinned: Bools
    sellable: Bools
    kin: Index
    home: Index
    large_mm: Floats
    small_mm: Floats
    disc_mm2: Floats
    capacity_mm2: Floats
    may_go: Bools
    home_closed: Bools

    def clash(self, row: int, others: Index) -> Bools:
        """Tell which of the others differ too much in size from one animal."""
        times = self.limits.size_spread * (1 + SLACK)
        small, own = self.small_mm[others], self.small_mm[row]
        uneven = (self.large_mm[others] > times * own) | (self.large_mm[row] > times * small)
        clashing: Bools = uneven & (small > 0) & (own > 0) & (self.kin[others] != self.kin[row])
        return clashing

    def alike(self, rows: Index) -> bool:
        """Tell whether all these animals may share a tank by size."""
        sized = rows[self.small_mm[rows] > 0]
        times = self.limits.size_spread * (1 + SLACK)
        if not len(sized) or self.large_mm[sized].max() <= times * self.small_mm[sized].min():
            return True
        return not any(bool(self.clash(row, sized).any()) for row in sized.tolist())

    def holds(self, tank: int, rows: Index) -> bool:
        """Tell whether a tank keeps every limit with these animals in it."""
        if float(self.disc_mm2[rows].sum()) > float(self.capacity_mm2[tank]) * (1 + SLACK):
            return False
        return not bool(self.closed(tank, rows).any()) and self.alike(rows)

    def closed(self, tank: int, rows: Index) -> Bools:
        """Tell which of these animals may not be in a tank, whoever else is there."""
        home = self.home[rows] == tank
        return np.where(home, self.home_closed[rows], ~self.may_go[rows, tank])

    def broken(self) -> Index:
        """Find the tanks whose residents break a limit this week."""
        found = [t for t in range(len(self.tanks)) if not self.holds(t, self.residents(t))]
        return np.array(found, dtype=np.intp)

    def residents(self, tank: int) -> Index:
        """Find the animals of a tank."""
        return np.flatnonzero(self.home == tank)


def house_week(
    tanks: Sequence[TankFloor],
    swimmers: Sequence[Swimmer],
    limits: Limits,
    *,
    begins: date,
    days: int = 7,
) -> HouseWeek:
    """Look at the days after `begins`.

    Animals that leave or arrive within the days are in it; those in no known tank are not.
    """
    place = {tank.code: n for n, tank in enumerate(tanks)}
    dates = [begins + timedelta(days=n) for n in range(days + 1)]
    around = np.flatnonzero(present_on(swimmers, dates[:-1]).any(axis=1))
    kept = [swimmers[n] for n in around.tolist() if swimmers[n].tank in place]
    widths = widths_on(kept, [dates[0], dates[-1]])
    large = widths[:, 1]
    fits = _fits(tanks, large, limits)
    open_to = _open_to(tanks, kept, begins)
    home = np.array([place[s.tank] for s in kept], dtype=np.intp)
    rows = np.arange(len(kept))
    unsafe = ~open_to[rows, home] & _isolated(kept, begins)
    return HouseWeek(
        begins,
        tuple(tanks),
        tuple(kept),
        limits,
        np.array([s.pinned or (s.stays_until or begins) > begins for s in kept], dtype=bool),
        np.array([s.for_sale and (s.arrives or begins) <= begins for s in kept], dtype=bool),
        _kin_numbers(kept),
        home,
        large,
        widths[:, 0],
        disc_mm2(1.0) * large**2,
        np.array([limits.load * (t.floor_mm2 or inf) for t in tanks]),
        fits & open_to & np.array([t.floor_mm2 is not None for t in tanks], dtype=bool),
        ~fits[rows, home] | unsafe,
    )


def further(week: HouseWeek, days: int) -> HouseWeek:
    """Look at the same week with the widths of a later day: what the tanks must bear till then."""
    width = widths_on(week.swimmers, [week.begins + timedelta(days=days)])[:, 0]
    large = np.maximum(width, week.large_mm)
    may_go = week.may_go & _fits(week.tanks, large, week.limits)
    return replace(week, large_mm=large, disc_mm2=disc_mm2(1.0) * large**2, may_go=may_go)


def moved(swimmers: Sequence[Swimmer], to: Mapping[str, str]) -> tuple[Swimmer, ...]:
    """Put the animals with these tags into other tanks."""
    return tuple(replace(s, tank=to[s.tag]) if s.tag in to else s for s in swimmers)


def _fits(tanks: Sequence[TankFloor], large_mm: Floats, limits: Limits) -> Bools:
    across = np.array([t.short_side_mm or inf for t in tanks]) * (1 + SLACK)
    along = np.array([t.long_side_mm or inf for t in tanks]) * (1 + SLACK)
    width = large_mm[:, None]
    fits: Bools = (width * limits.widths_across <= across) & (width * limits.widths_along <= along)
    return fits


def _kin_numbers(swimmers: Sequence[Swimmer]) -> Index:
    """Give each litter a number, and each animal of none one of its own."""
    numbers: dict[str, int] = {}
    return np.array(
        [
            numbers.setdefault(s.kin, len(numbers)) if s.kin else -1 - n
            for n, s in enumerate(swimmers)
        ],
        dtype=np.intp,
    )


def _isolated(swimmers: Sequence[Swimmer], begins: date) -> Bools:
    return np.array([(s.isolated_until or begins) > begins for s in swimmers], dtype=bool)


def _open_to(tanks: Sequence[TankFloor], swimmers: Sequence[Swimmer], begins: date) -> Bools:
    """Find where each animal may be by role and isolation.

    A clean animal is never moved to an intake or hospital tank. An isolated one may be only
    in isolating water: its own system, or an empty one if its own isolates nothing.
    """
    clean = {
        roles: [t.role in roles and t.role not in ISOLATING_ROLES for t in tanks]
        for roles in {s.roles for s in swimmers}
    }
    water = {t.code: t.system or t.code for t in tanks}
    safe = {t.code for t in tanks if t.isolates}
    used = {water[s.tank] for s in swimmers}
    rows = []
    for swimmer, apart in zip(swimmers, _isolated(swimmers, begins), strict=True):
        own = water[swimmer.tank]
        at_home = swimmer.tank in safe
        rows.append(
            [t.isolates and (water[t.code] == own if at_home else water[t.code] not in used)
             for t in tanks]
            if apart
            else clean[swimmer.roles]
        )  # fmt: skip
    return np.array(rows, dtype=bool).reshape(len(swimmers), len(tanks))
