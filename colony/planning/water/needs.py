"""Which water each system wants this week, from its rhythm, its tests and its animals."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta
from math import ceil, floor

from colony.planning.water.demand import Demand, Routine, Urgent
from colony.planning.water.dilution import changes_to_reach
from colony.planning.water.limits import OutOfLimit

BAD_TEST, HIGH_LOAD, DUE_LITTER = 1, 2, 3
"""Ranks of urgency; the first is served first."""


@dataclass(frozen=True)
class SystemWater:
    """How a system's water is renewed, and what speaks for doing it sooner.

    `percent` every `every_days` in batches, or `drip_l_a_day`; either may be 0.
    `last_change` is the last batch change, or the day the rhythm began.
    """

    name: str
    volume_l: int
    percent: float = 0.0
    every_days: int = 7
    most_percent_a_day: float = 50.0
    drip_l_a_day: int = 0
    last_change: date | None = None
    changed_today: bool = False
    bad_tests: tuple[OutOfLimit, ...] = ()
    too_full: bool = False
    litter_due: date | None = None

    @property
    def change_l(self) -> int:
        """Litres of one batch change, within the limit of a day."""
        return min(round(self.volume_l * self.percent / 100), self.most_l_a_day)

    @property
    def most_l_a_day(self) -> int:
        """The most that may be changed on one day."""
        return max(1, floor(self.volume_l * self.most_percent_a_day / 100))


@dataclass(frozen=True)
class WeekRules:
    """How many days are planned, how far a routine change may be put off, when a litter is near."""

    days: int = 7
    slack_days: int = 2
    litter_days: int = 7


def demand_of(systems: Iterable[SystemWater], today: date, rules: WeekRules) -> Demand:
    """Everything that the systems want in the days to come."""
    urgent: list[Urgent] = []
    routine: list[Routine] = []
    drip = 0
    for system in systems:
        drip += system.drip_l_a_day
        hurried = _urgent(system, today, rules)
        later = _routine(system, _first_due(system, hurried, today), rules)
        routine.extend(later)
        if hurried is not None:
            last = later[0].first_day - 1 if later else rules.days - 1
            urgent.append(replace(hurried, last_day=last))
    return Demand(drip, tuple(urgent), tuple(routine))


def cannot_be_diluted(system: SystemWater) -> tuple[OutOfLimit, ...]:
    """Bad tests that no change of water mends: they want a cause, not litres."""
    return tuple(test for test in system.bad_tests if not test.diluted)


def _urgent(system: SystemWater, today: date, rules: WeekRules) -> Urgent | None:
    needs = [*_for_tests(system, rules), *_for_animals(system, today, rules)]
    if not needs or system.changed_today:
        return None
    return min(needs, key=lambda need: (need.rank, -need.litres))


def _for_tests(system: SystemWater, rules: WeekRules) -> Iterator[Urgent]:
    for test in system.bad_tests:
        if not test.diluted or not test.limit.high:
            continue
        changes = changes_to_reach(
            test.value, test.limit.high, system.most_l_a_day / system.volume_l
        )
        if changes is None or not changes.times:
            continue
        each = min(ceil(changes.fraction * system.volume_l), system.most_l_a_day)
        why = f"{test.parameter} {test.value:.3g}, limit {test.limit.high:g}"
        times = min(changes.times, rules.days)
        yield Urgent(system.name, each * times, each, BAD_TEST, why)


def _for_animals(system: SystemWater, today: date, rules: WeekRules) -> Iterator[Urgent]:
    if not system.change_l or not _has_come_round(system, today):
        return
    if system.too_full:
        yield _whole(system, HIGH_LOAD, "loaded above its limit")
    if system.litter_due and system.litter_due <= today + timedelta(days=rules.litter_days):
        yield _whole(system, DUE_LITTER, f"litter due from {system.litter_due}")


def _has_come_round(system: SystemWater, today: date) -> bool:
    """Half of its rhythm has passed: then a change can be brought forward for its animals."""
    if system.last_change is None:
        return True
    return (today - system.last_change).days * 2 >= system.every_days


def _whole(system: SystemWater, rank: int, why: str) -> Urgent:
    return Urgent(system.name, system.change_l, system.change_l, rank, why)


def _first_due(system: SystemWater, hurried: Urgent | None, today: date) -> int:
    """Days until the next routine change; after an urgent one its rhythm begins again."""
    if hurried is not None:
        return ceil(hurried.litres / hurried.most_l_a_day) - 1 + system.every_days
    if system.last_change is None:
        return 0
    return (system.last_change - today).days + system.every_days


def _routine(system: SystemWater, due: int, rules: WeekRules) -> Sequence[Routine]:
    """Each change that comes due within the days, in windows that never meet."""
    if not system.change_l:
        return ()
    slack = min(rules.slack_days, (system.every_days - 1) // 2)
    first_free = 1 if system.changed_today else 0
    needs = []
    while due < rules.days:
        first = max(due - slack, first_free)
        last = min(max(due + slack, first), rules.days - 1)
        due_day = min(max(due, first), last)
        needs.append(Routine(system.name, system.change_l, first, last, due_day))
        first_free, due = last + 1, max(due, 0) + system.every_days
    return needs
