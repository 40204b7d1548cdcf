"""Clocks that have to run out: the isolation of arrivals, and the maturing of a new filter."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, timedelta


@dataclass(frozen=True)
class Stay:
    """An animal in isolating water since a day; `born_there` when it came by birth."""

    tag: str
    since: date
    born_there: bool = False


@dataclass(frozen=True)
class Clock:
    """Since when it runs, until when, and who started it again last."""

    since: date
    until: date
    restarted_by: tuple[str, ...]


def isolation_clock(stays: Iterable[Stay], days: int) -> Clock | None:
    """The clock of water that animals are isolated in: each one added starts it again.

    A pup that is born in the water brings nothing new into it.
    """
    stays = tuple(stays)
    added = [stay for stay in stays if not stay.born_there] or stays
    if not added:
        return None
    since = max(stay.since for stay in added)
    by = tuple(sorted(stay.tag for stay in added if stay.since == since))
    return Clock(since, since + timedelta(days=days), by)


def mature_from(started: date, weeks: int) -> date:
    """The day from which a filter that began to mature then is trusted."""
    return started + timedelta(weeks=weeks)
