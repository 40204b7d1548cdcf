"""Which tanks growth alone brings over a limit: for every morning, before any plan is made."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date

from colony.planning.pups.growth import Curve, likely_width_mm
from colony.planning.tanks.limits import DEFAULT_LIMITS, Limits, breaks
from colony.planning.tanks.load import Occupant, TankFloor


@dataclass(frozen=True)
class Overflow:
    """A tank in order today that breaks a limit on a day, and why."""

    tank: str
    day: date
    why: str


def overflowing(
    tanks: Iterable[tuple[TankFloor, Sequence[Occupant]]],
    curves: Mapping[str, Curve],
    limits: Limits = DEFAULT_LIMITS,
    *,
    day: date,
) -> tuple[Overflow, ...]:
    """Find the tanks that growth alone brings over a limit by a day; births are not counted."""
    found = []
    for tank, here in tanks:
        if breaks(tank, here, limits):
            continue
        reasons = breaks(tank, [_grown(occupant, curves, day) for occupant in here], limits)
        found += [Overflow(tank.code, day, reason.sentence) for reason in reasons[:1]]
    return tuple(found)


def _grown(occupant: Occupant, curves: Mapping[str, Curve], day: date) -> Occupant:
    curve = curves.get(occupant.tag)
    if curve is None:
        return occupant
    width_mm = max(likely_width_mm(curve, day), occupant.disc_width_mm or 0.0)
    return replace(occupant, disc_width_mm=width_mm)
