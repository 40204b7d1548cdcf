"""Today's work in walking order, and what is overdue."""

from dataclasses import dataclass
from datetime import date

from sqlmodel import Session

from colony.planning.care.round import Work, overdue, todays_work
from colony.planning.care.walking_order import GUARDED, ISOLATED
from colony.store.readers.care import Floor, read_floor, read_rhythms, read_written

_WATER = {GUARDED: "guarded", ISOLATED: "isolated"}


@dataclass(frozen=True)
class WorkLine:
    """One task at one place today; `water` is clean, guarded or isolated."""

    task: str
    place: str
    system: str
    water: str
    wanted: int
    done: int
    is_open: bool
    due: date
    overdue_days: int
    last_done: date | None
    skipped: str | None
    caution: str = ""
    written_by: str = ""
    """The act that does it with a value; empty where a tick is enough."""

    @property
    def in_words(self) -> str:
        """The task, and how often it is to be done or was: ``feeding 1 of 2``."""
        if self.wanted <= 1:
            return self.task
        often = f"{self.done} of {self.wanted}" if self.done else f"{self.wanted} times"
        return f"{self.task} {often}"


def todays_round(session: Session, *, today: date) -> list[WorkLine]:
    """Today's work, clean tanks before isolated ones, and what is overdue."""
    floor = read_floor(session, today)
    return [_line(work, floor) for work in work_of(session, floor, today)]


def overdue_work(session: Session, *, today: date) -> list[WorkLine]:
    """What should have been done before today, the longest overdue first."""
    if not (rhythms := read_rhythms(session)):
        return []
    floor = read_floor(session, today)
    written = read_written(session, floor, today)
    works = todays_work(floor.places, rhythms, written, today, floor.tasks)
    return [_line(work, floor) for work in overdue(works)]


def work_of(session: Session, floor: Floor, today: date) -> list[Work]:
    """The work of a day at every place."""
    return todays_work(
        floor.places,
        read_rhythms(session),
        read_written(session, floor, today),
        today,
        floor.tasks,
    )


def _line(work: Work, floor: Floor) -> WorkLine:
    task = floor.task(work.task)
    return WorkLine(
        task=work.task,
        place=work.place.name,
        system=work.place.system,
        water=_WATER.get(work.place.water, "clean"),
        wanted=work.wanted,
        done=work.done,
        is_open=work.is_open,
        due=work.due,
        overdue_days=work.overdue_days,
        last_done=work.last_done,
        skipped=work.last_skip,
        caution=task.caution,
        written_by=task.act,
    )
