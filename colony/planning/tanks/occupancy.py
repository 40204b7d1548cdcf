"""Who will swim where, and how wide, on each of the days to come."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date, timedelta

import numpy as np

from colony.planning.arrays import Bools, Floats
from colony.planning.pups.growth import Curve, GrowthPrior, first_curve
from colony.planning.pups.growth_law import YEAR_DAYS, width_mm
from colony.planning.pups.readiness import Readiness
from colony.planning.tanks.load import Occupant

GROWING_ROLES = frozenset({"nursery", "grow-out"})
"""Roles of the tanks a young animal may be put into."""


@dataclass(frozen=True)
class Swimmer:
    """An animal in the house, or expected in it.

    It grows by its `curve`; without one it keeps `disc_width_mm` (None: never measured).
    `arrives` is the day of an expected birth and `leaves` that of an expected sale.
    `roles` are those of the tanks it may be moved to. A `pinned` animal is not moved:
    it is gravid, paired, or otherwise where it has to be; a pup in its nursery is not moved
    before `stays_until`. `for_sale` says whether a remedy may
    name it for sale. `family` is the litter a dam bore.
    """

    tag: str
    tank: str
    curve: Curve | None = None
    disc_width_mm: float | None = None
    litter: str = ""
    family: str = ""
    isolated_until: date | None = None
    arrives: date | None = None
    leaves: date | None = None
    roles: frozenset[str] = GROWING_ROLES
    pinned: bool = False
    stays_until: date | None = None
    for_sale: bool = True

    @property
    def kin(self) -> str:
        """The litter that its size is not held against: that which it bore, else its own."""
        return self.family or self.litter


@dataclass(frozen=True)
class ExpectedLitter:
    """A litter to come: likely birth, expected pups, and the tank they will lie in."""

    dam: str
    likely: date
    pups: int
    tank: str
    prior: GrowthPrior

    @property
    def name(self) -> str:
        """What it is called before it has a code."""
        return due_name(self.dam, self.likely)


def due_name(dam: str, likely: date) -> str:
    """What a litter is called before it is born."""
    return f"due of {dam}, {likely}"


def expected_pups(due: ExpectedLitter) -> tuple[Swimmer, ...]:
    """Make the pups of a litter to come, of the species' birth width and growth."""
    name = due.name
    curve = first_curve((), due.prior, born=due.likely)
    return tuple(
        Swimmer(
            f"pup {n} of {due.dam}",
            due.tank,
            curve,
            litter=name,
            arrives=due.likely,
        )
        for n in range(1, due.pups + 1)
    )


def expected_sales(pups: Iterable[Readiness], per_week: float, today: date) -> dict[str, date]:
    """Expect pups to leave in the order they become ready, at most so many a week.

    Returns
    -------
    dict of str to date
        The day on which each pup leaves, by tag; a pup nobody can date, or whose turn comes
        after the last day of the calendar, is not in it.
    """
    dated = sorted(
        (max(pup.expected_ready, today), pup.tag) for pup in pups if pup.expected_ready is not None
    )
    if per_week <= 0:
        return {}
    leaving: dict[str, date] = {}
    free = float(today.toordinal())
    for ready, tag in dated:
        free = max(free, float(ready.toordinal())) + 7 / per_week
        if free > date.max.toordinal():
            break
        leaving[tag] = date.fromordinal(int(free))
    return leaving


def widths_on(swimmers: Sequence[Swimmer], days: Sequence[date]) -> Floats:
    """Likely disc width in mm of each animal (rows) on each day (columns); 0 when unknown.

    An animal keeps its first width until its curve begins.
    """
    middles = np.array(
        [s.curve.middle if s.curve else (s.disc_width_mm or 0.0, 0.0, 0.0) for s in swimmers]
    ).reshape(-1, 3)
    begins = np.array([s.curve.on.toordinal() if s.curve else 0 for s in swimmers], dtype=float)
    ordinals = np.array([day.toordinal() for day in days], dtype=float)
    years = np.maximum(ordinals[None, :] - begins[:, None], 0) / YEAR_DAYS
    start, rate, to_come = (middles[:, [column]] for column in range(3))
    return width_mm(start, rate, to_come, years)


def present_on(swimmers: Sequence[Swimmer], days: Sequence[date]) -> Bools:
    """Whether each animal (rows) is in the house on each day (columns)."""
    ordinals = np.array([day.toordinal() for day in days])
    comes = np.array([(s.arrives or date.min).toordinal() for s in swimmers]).reshape(-1, 1)
    goes = np.array([(s.leaves or date.max).toordinal() for s in swimmers]).reshape(-1, 1)
    return (comes <= ordinals) & (ordinals < goes)


def occupant(swimmer: Swimmer, width_mm: float) -> Occupant:
    """Make the occupant that the limits judge, of a forecast width."""
    return Occupant(swimmer.tag, width_mm or None, swimmer.isolated_until, swimmer.kin)


def days_from(today: date, weeks: int) -> list[date]:
    """Every day from today to the last day of so many weeks, both included."""
    return [today + timedelta(days=n) for n in range(7 * weeks + 1)]
