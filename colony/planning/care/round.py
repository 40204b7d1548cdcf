"""The round: which work is due where today, and what was left undone."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from colony.notation.care import TASKS, Task
from colony.planning.care.walking_order import WorkPlace, by_biosecurity


@dataclass(frozen=True)
class Rhythm:
    """How often a task is done: some times a day, or once every some days.

    It holds for one tank, one system, the tanks of one role, or (all None) everywhere.
    """

    task: str
    started: date
    times_a_day: int = 1
    every_days: int = 1
    tank: str | None = None
    system: str | None = None
    role: str | None = None


@dataclass(frozen=True)
class WorkEntry:
    """What was written of a task at a place on a day: done so many times, or skipped and why."""

    day: date
    times: int = 1
    skipped_why: str | None = None


@dataclass(frozen=True)
class Work:
    """One task at one place today.

    `due` is the day since which it is due; `missing_before` how many times were left out on
    the last day that it was begun and not finished.
    """

    task: str
    place: WorkPlace
    wanted: int
    done: int
    due: date
    overdue_days: int
    skipped_today: bool
    last_done: date | None
    last_skip: str | None

    @property
    def is_open(self) -> bool:
        """Whether something is left to do today."""
        return self.done < self.wanted and not self.skipped_today


USUAL = (
    ("feeding", None, 1, 1),
    ("feeding", "nursery", 2, 1),
    ("headcount", None, 1, 1),
    ("look-over", None, 1, 1),
    ("sock check", None, 1, 2),
    ("water test", None, 1, 7),
    ("pad swap", None, 1, 7),
)
"""Task, role, times a day, every how many days; common practice, no source."""


def todays_work(
    places: Iterable[WorkPlace],
    rhythms: Sequence[Rhythm],
    written: Mapping[tuple[str, str], Sequence[WorkEntry]],
    today: date,
    tasks: Mapping[str, Task] = TASKS,
) -> list[Work]:
    """Everything that is due today or was done today, in walking order.

    Parameters
    ----------
    tasks
        Every task by name, in the order in which they are done at one place.
    written
        Entries by (task, name of the place), in any order.
    """
    wanted = {rhythm.task for rhythm in rhythms}
    known = dict(tasks) | {name: Task(name) for name in sorted(wanted - tasks.keys())}
    ordered = [task for name, task in known.items() if name in wanted]
    found = []
    for place in by_biosecurity(places):
        for task in ordered:
            rhythm = rhythm_at(place, task, rhythms)
            if rhythm is not None:
                work = _work(place, rhythm, written.get((task.name, place.name), ()), today)
                if work.due <= today or work.done:
                    found.append(work)
    return found


def rhythm_at(place: WorkPlace, task: Task, rhythms: Iterable[Rhythm]) -> Rhythm | None:
    """The rhythm of a task at a place: its own before its role's, its system's, everybody's."""
    if task.per != place.per or (task.needs_animals and not place.animals):
        return None
    fitting = [rhythm for rhythm in rhythms if rhythm.task == task.name and _fits(rhythm, place)]
    return max(fitting, key=_closeness, default=None)


def overdue(work: Iterable[Work]) -> list[Work]:
    """What should have been done before today, the longest overdue first."""
    late = [item for item in work if item.is_open and item.overdue_days]
    return sorted(late, key=lambda item: -item.overdue_days)


def _fits(rhythm: Rhythm, place: WorkPlace) -> bool:
    tank = place.name if place.per == "tank" else None
    return (
        rhythm.tank in (None, tank)
        and rhythm.system in (None, place.system)
        and rhythm.role in (None, place.role)
    )


def _closeness(rhythm: Rhythm) -> tuple[bool, bool, bool, date]:
    return (
        rhythm.tank is not None,
        rhythm.role is not None,
        rhythm.system is not None,
        rhythm.started,
    )


def _work(place: WorkPlace, rhythm: Rhythm, entries: Sequence[WorkEntry], today: date) -> Work:
    done = [entry for entry in entries if entry.skipped_why is None]
    skips = [entry for entry in entries if entry.skipped_why is not None]
    before = [entry for entry in done if entry.day < today]
    complete = [entry.day for entry in before if entry.times >= rhythm.times_a_day]
    last_skip = max(skips, key=lambda entry: entry.day, default=None)
    last_done = max(complete, default=None)
    due = _due(place, rhythm, last_done, [skip.day for skip in skips if skip.day < today])
    return Work(
        task=rhythm.task,
        place=place,
        wanted=rhythm.times_a_day,
        done=sum(entry.times for entry in done if entry.day == today),
        due=due,
        overdue_days=max(0, (today - due).days),
        skipped_today=any(entry.day == today for entry in skips),
        last_done=max((entry.day for entry in done), default=None),
        last_skip=last_skip.skipped_why
        if last_skip and (last_done is None or last_skip.day > last_done)
        else None,
    )


def _due(place: WorkPlace, rhythm: Rhythm, last_done: date | None, skips: Sequence[date]) -> date:
    """The first day that wants the task: a skipped day is let go, but not the day after it."""
    days = [rhythm.started if last_done is None else last_done + timedelta(rhythm.every_days)]
    days += [day + timedelta(days=1) for day in skips]
    return max(days) if place.since is None else max(*days, place.since)
