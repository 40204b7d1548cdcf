"""In which order to walk through the house: clean water before guarded, guarded before isolated."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date

CLEAN, GUARDED, ISOLATED = range(3)
"""Classes of water by what it may carry to the next tank."""

_BY_ROLE = {"hospital": GUARDED, "intake": ISOLATED}


@dataclass(frozen=True)
class WorkPlace:
    """A tank or a system where work is done.

    `walk` is its place on the breeder's own way through the house; `water` its class;
    `since` the day since which there is work at all (somebody lives there, it runs).
    """

    name: str
    per: str
    system: str
    walk: int
    water: int = CLEAN
    role: str | None = None
    animals: int = 0
    since: date | None = None


@dataclass(frozen=True)
class Stop:
    """One tank on the way, in the breeder's order."""

    tank: str
    system: str
    role: str
    held: bool = False


def water_classes(stops: Iterable[Stop]) -> dict[str, int]:
    """Class of each system: that of its worst tank, for they share their water."""
    worst: dict[str, int] = {}
    for stop in stops:
        own = max(_BY_ROLE.get(stop.role, CLEAN), GUARDED if stop.held else CLEAN)
        worst[stop.system] = max(own, worst.get(stop.system, CLEAN))
    return worst


def by_biosecurity(places: Iterable[WorkPlace]) -> list[WorkPlace]:
    """Clean before guarded before isolated; within a class as the breeder walks."""
    return sorted(
        places, key=lambda place: (place.water, place.walk, place.per != "system", place.name)
    )
