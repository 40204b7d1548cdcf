"""When a pup is ready to leave, and how many will be in the weeks to come."""

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from colony.planning.pups.gates import GATES, Gate, Opening, PupFacts, ReadyRules

__all__ = [
    "GATES",
    "Gate",
    "Opening",
    "PupFacts",
    "Readiness",
    "ReadyRules",
    "WeekOfReady",
    "by_date",
    "grouped",
    "is_ready",
    "readiness",
    "ready_by_week",
]


@dataclass(frozen=True)
class Readiness:
    """Which gates a pup has passed, and when it passes the last (80 % interval)."""

    tag: str
    species: str
    sex: str
    litter: str
    tank: str
    age_days: int | None
    disc_width_mm: float | None
    ready: bool
    gates: dict[str, bool]
    expected_ready: date | None
    ready_low: date | None
    ready_high: date | None
    reserved_for: str | None = None

    @property
    def waiting_on(self) -> tuple[str, ...]:
        """The gates still closed."""
        return tuple(name for name, is_open in self.gates.items() if not is_open)

    @property
    def lacks(self) -> tuple[str, ...]:
        """What it waits on, in words."""
        return tuple(gate.lacks for gate in GATES if not self.gates.get(gate.name, True))


def is_ready(pup: PupFacts, rules: ReadyRules, today: date) -> bool:
    """Tell whether a pup passes every gate, without asking when it would."""
    return all(gate.opening(pup, rules, today).is_open for gate in GATES)


def readiness(pup: PupFacts, rules: ReadyRules, today: date) -> Readiness:
    """Try a pup at every gate and expect the day on which the last one opens."""
    openings = {gate.name: gate.opening(pup, rules, today) for gate in GATES}
    return Readiness(
        tag=pup.tag,
        species=pup.species,
        sex=pup.sex,
        litter=pup.litter,
        tank=pup.tank,
        age_days=(today - pup.born).days if pup.born else None,
        disc_width_mm=pup.disc_width_mm,
        ready=all(opening.is_open for opening in openings.values()),
        gates={name: opening.is_open for name, opening in openings.items()},
        expected_ready=_last([o.likely for o in openings.values()]),
        ready_low=_last([o.low for o in openings.values()]),
        ready_high=_last([o.high for o in openings.values()]),
        reserved_for=pup.reserved_for or None,
    )


def by_date(pups: Iterable[Readiness]) -> list[Readiness]:
    """Sort the first ready first; those nobody can date come last, by tag."""
    return sorted(pups, key=lambda p: (not p.ready, p.expected_ready or date.max, p.tag))


def grouped(pups: Iterable[Readiness], by: str) -> dict[str, list[Readiness]]:
    """Put the pups under their "litter", "tank", "species" or "sex", each group by date."""
    groups: dict[str, list[Readiness]] = {}
    for pup in by_date(pups):
        groups.setdefault(getattr(pup, by), []).append(pup)
    return groups


@dataclass(frozen=True)
class WeekOfReady:
    """How many pups become ready in the week that begins on a day.

    `counts` is by (species, sex). The first week holds those that are ready already.
    """

    begins: date
    counts: Mapping[tuple[str, str], int]

    @property
    def total(self) -> int:
        """All of them."""
        return sum(self.counts.values())


def ready_by_week(
    pups: Iterable[Readiness], today: date, weeks: int = 12
) -> tuple[WeekOfReady, ...]:
    """Count the pups by the week of their expected date, by species and sex."""
    found: list[Counter[tuple[str, str]]] = [Counter() for _ in range(weeks)]
    for pup in pups:
        if pup.expected_ready is None:
            continue
        week = max((pup.expected_ready - today).days, 0) // 7
        if week < weeks:
            found[week][pup.species, pup.sex] += 1
    starts = (today + timedelta(weeks=n) for n in range(weeks))
    return tuple(WeekOfReady(day, dict(c)) for day, c in zip(starts, found, strict=True))


def _last(days: Sequence[date | None]) -> date | None:
    """Take the last of all days, None as soon as one of them is unknown."""
    known = [day for day in days if day is not None]
    return max(known) if len(known) == len(days) else None
