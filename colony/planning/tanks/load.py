"""How full a tank is: floor area is what counts for a ray."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from math import pi

ISOLATING_ROLES = frozenset({"intake", "hospital"})


@dataclass(frozen=True)
class TankFloor:
    """A tank as housing sees it: rectangular (length and width) or round (diameter), in mm.

    `isolates` says that it shares water with no tank outside isolation (`isolating`).
    """

    code: str
    length_mm: float | None = None
    width_mm: float | None = None
    diameter_mm: float | None = None
    role: str = "grow-out"
    system: str | None = None
    isolates: bool = False

    @property
    def floor_mm2(self) -> float | None:
        """Floor area, or None when its size is not recorded."""
        if self.diameter_mm is not None:
            return pi / 4 * self.diameter_mm**2
        if self.length_mm is None or self.width_mm is None:
            return None
        return self.length_mm * self.width_mm

    @property
    def long_side_mm(self) -> float | None:
        """The longer side, or the diameter."""
        sides = [side for side in self._sides if side is not None]
        return max(sides, default=None)

    @property
    def short_side_mm(self) -> float | None:
        """The shorter side, or the diameter."""
        sides = [side for side in self._sides if side is not None]
        return min(sides, default=None)

    @property
    def _sides(self) -> tuple[float | None, ...]:
        if self.diameter_mm is not None:
            return (self.diameter_mm,)
        return self.length_mm, self.width_mm


@dataclass(frozen=True)
class Occupant:
    """An animal in a tank, or to be put there; `disc_width_mm` is None when never measured.

    `isolated_until` is the first day out of isolation. `family` is the last litter that was
    born of it, else its own: the size spread is not held against a dam and her pups.
    """

    tag: str
    disc_width_mm: float | None
    isolated_until: date | None = None
    family: str = ""


COMING = "coming"
"""The family of a dam and of the pups that she bears, before they are in the book."""


def coming_pups(count: int, width_mm: float) -> list[Occupant]:
    """Make the occupants of a birth, of a width at birth."""
    return [Occupant(f"pup {n + 1}", width_mm, family=COMING) for n in range(count)]


def disc_mm2(disc_width_mm: float) -> float:
    """Area of a round disc of this width."""
    return pi / 4 * disc_width_mm**2


def load(tank: TankFloor, occupants: Iterable[Occupant]) -> float | None:
    """Sum of disc areas over floor area; None when the tank's size is not recorded."""
    if not tank.floor_mm2:
        return None
    return sum(disc_mm2(o.disc_width_mm or 0.0) for o in occupants) / tank.floor_mm2


def isolating(tanks: Iterable[TankFloor]) -> frozenset[str]:
    """Codes of the tanks whose whole system is intake or hospital."""
    tanks = tuple(tanks)
    open_systems = {t.system for t in tanks if t.system and t.role not in ISOLATING_ROLES}
    return frozenset(
        t.code for t in tanks if t.role in ISOLATING_ROLES and t.system not in open_systems
    )
