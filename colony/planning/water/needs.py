"""Which water each system wants this week, from its rhythm, its tests and its animals."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import date, timedelta
from math import ceil, floor

from colony.planning.water.demand import Demand, Routine, Urgent
from colony.planning.water.dilution import changes_to_reach, left_after_changes, left_after_drip
from colony.planning.water.limits import OutOfLimit
from colony.planning.water.source import (
    PURE,
    SourceWater,
    brought_by_source,
    why_no_change_helps,
)

BAD_TEST, HIGH_LOAD, DUE_LITTER = 1, 2, 3
"""Ranks of urgency; the first is served first."""


@dataclass(frozen=True)
class SystemWater:
    """How a system's water is renewed, and what speaks for doing it sooner.

    `percent` every `every_days` in batches, or `drip_l_a_day`; either may be 0.
    `last_change` is the last batch change, or the day the rhythm began. `values` are the last
    tests, `bad_tests` what of them lies outside its limit as of today: what was changed since
    counts. `source` is the water that it is changed with.
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
    values: Mapping[str, float] = field(default_factory=dict)
    source: SourceWater = PURE
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


def beyond_changes(system: SystemWater) -> list[tuple[OutOfLimit, str]]:
    """Values that no change with this water mends, each with what would help."""
    fraction = system.most_l_a_day / system.volume_l
    found = (
        (test, why_no_change_helps(test, system.values, system.source, fraction))
        for test in system.bad_tests
    )
    return [(test, why) for test, why in found if why]


def expected_now(
    value: float, source: float, volume_l: int, changed_l: Iterable[int], dripped_l: float
) -> float:
    """What a tested value is after the changes since its test, if nothing was added.

    Parameters
    ----------
    changed_l
        Litres of each batch change since.
    dripped_l
        Litres that dripped through since.
    """
    left = left_after_drip(dripped_l, volume_l, 1)
    for litres in changed_l:
        left *= left_after_changes(min(litres / volume_l, 1.0), 1)
    return source + (value - source) * left


def _urgent(system: SystemWater, today: date, rules: WeekRules) -> Urgent | None:
    needs = [*_for_tests(system, rules), *_for_animals(system, today, rules)]
    if not needs or system.changed_today:
        return None
    return min(needs, key=lambda need: (need.rank, -need.litres))


def _for_tests(system: SystemWater, rules: WeekRules) -> Iterator[Urgent]:
    fraction = system.most_l_a_day / system.volume_l
    for test in system.bad_tests:
        if why_no_change_helps(test, system.values, system.source, fraction):
            continue
        brought = brought_by_source(test.parameter, system.values, system.source)
        changes = changes_to_reach(test.value, test.limit.high or 0.0, fraction, brought)
        if changes is None or not changes.times:
            continue
        each = min(ceil(changes.fraction * system.volume_l), system.most_l_a_day)
        how = " expected" if test.expected else ""
        why = f"{test.parameter}{how} {test.value:.3g}, limit {test.limit.high:g}"
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
