"""The state of the day: who is due, who is ready, what is overdue."""

from dataclasses import dataclass
from datetime import date, timedelta

from sqlmodel import Session

from colony.acts.due import DueLitter, due_litters
from colony.acts.ready import ready_pups
from colony.acts.tanks import TankLine, list_tanks
from colony.planning.readiness import Readiness
from colony.store.readers.growing import read_pups
from colony.store.readers.lives import read_lives
from colony.store.settings import read_settings

SOON_DAYS = 42
"""How far ahead a birth is news."""


@dataclass(frozen=True)
class Unmeasured:
    """A growing pup that was not measured for longer than the book wants."""

    tag: str
    tank: str
    last: date | None


@dataclass(frozen=True)
class State:
    """What the breeder wants to know first in the morning."""

    today: date
    due: tuple[DueLitter, ...]
    ready: tuple[Readiness, ...]
    unmeasured: tuple[Unmeasured, ...]
    overfull: tuple[TankLine, ...]
    isolated: tuple[TankLine, ...]


def state_of_the_day(session: Session, *, today: date) -> State:
    """Everything that asks for a hand today."""
    tanks = list_tanks(session, today=today)
    return State(
        today=today,
        due=tuple(due_soon(session, today=today)),
        ready=tuple(ready_pups(session, today=today)),
        unmeasured=tuple(unmeasured_pups(session, today=today)),
        overfull=tuple(tank for tank in tanks if tank.breaks),
        isolated=tuple(
            tank for tank in tanks if tank.isolated_until and tank.isolated_until > today
        ),
    )


def due_soon(session: Session, *, today: date) -> list[DueLitter]:
    """Litters that may be born within `SOON_DAYS`, the first due first."""
    soon = today + timedelta(days=SOON_DAYS)
    return [one for one in due_litters(session, today=today) if one.earliest <= soon]


def unmeasured_pups(session: Session, *, today: date) -> list[Unmeasured]:
    """Growing pups that were not measured for longer than the book wants, the longest first."""
    limit = today - timedelta(days=read_settings(session).measure_every_days)
    late = []
    for pup in read_pups(session, read_lives(session), today):
        last = max((one.day for one in pup.widths), default=None)
        since = last or pup.born
        if since is not None and since < limit:
            late.append(Unmeasured(pup.tag, pup.tank, last))
    return sorted(late, key=lambda one: (one.last or date.min, one.tag))
