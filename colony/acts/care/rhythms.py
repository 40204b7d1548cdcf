"""How often each task of the round is done, and the way through the house."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from sqlmodel import Session, col, select

from colony.notation.fields.care import TASK
from colony.notation.words import parse_word
from colony.planning.care.round import USUAL
from colony.records import CareRhythm, System, Tank
from colony.records.rules import broken
from colony.refusals.care import NoRhythm, RhythmTwoWays, RoundBegun, WrongPlaceForTask
from colony.store.journal.journal import tell
from colony.store.lookup import find_system, find_tank
from colony.store.readers.care import read_tasks
from colony.store.readers.tanks.house import read_tanks


@dataclass(frozen=True)
class Where:
    """Where a rhythm holds: one tank, one system, the tanks of a role, or everywhere."""

    tank: str | None = None
    system: str | None = None
    role: str | None = None

    def __str__(self) -> str:
        named = (("tank", self.tank), ("system", self.system), ("role", self.role))
        return next((f"for {what} {name}" for what, name in named if name), "for all")


@dataclass(frozen=True)
class RhythmLine:
    """One rhythm in the list."""

    task: str
    tank: str | None
    system: str | None
    role: str | None
    times_a_day: int
    every_days: int
    started: date


def begin_round(session: Session, *, today: date) -> list[RhythmLine]:
    """Write the usual rhythms (common practice, no source) into a book that has none.

    Raises
    ------
    RoundBegun
    """
    if session.exec(select(CareRhythm.id).limit(1)).first() is not None:
        raise RoundBegun
    for task, role, times, every in USUAL:
        session.add(
            CareRhythm(task=task, role=role, times_a_day=times, every_days=every, started=today)
        )
    session.flush()
    tell(session, "the round began with the usual rhythms")
    return list_rhythms(session)


def set_rhythm(
    session: Session,
    *,
    task: str,
    where: Where,
    times_a_day: int = 1,
    every_days: int = 1,
    today: date,
) -> RhythmLine:
    """Set how often a task is done at one tank, one system, a role, or everywhere.

    Raises
    ------
    UnknownWord, NoSuchTank, NoSuchSystem, RhythmTwoWays, WrongPlaceForTask
    """
    often = {"times_a_day": times_a_day, "every_days": every_days}
    place = {"tank_id": where.tank, "system_id": where.system, "role": where.role}
    if wrong := broken(CareRhythm, **often, **place):
        raise RhythmTwoWays(wrong)
    tasks = read_tasks(session)
    task = parse_word(task, tuple(tasks), TASK.words_for_it)
    if tasks[task].per == "system" and (where.tank or where.role):
        raise WrongPlaceForTask(task)
    row = _seek(session, task, where) or CareRhythm(task=task, started=today)
    row.tank_id = find_tank(session, where.tank).id if where.tank else None
    row.system_id = find_system(session, where.system).id if where.system else None
    row.role, row.times_a_day, row.every_days = where.role, times_a_day, every_days
    session.add(row)
    session.flush()
    tell(session, f"{task} {where}: {times_a_day} a day, every {every_days} days")
    return RhythmLine(
        task, where.tank, where.system, where.role, times_a_day, every_days, row.started
    )


def drop_rhythm(session: Session, *, task: str, where: Where) -> None:
    """Take a rhythm away; the wider one holds again, if there is one.

    Raises
    ------
    UnknownWord, NoSuchTank, NoSuchSystem, NoRhythm
    """
    task = parse_word(task, tuple(read_tasks(session)), TASK.words_for_it)
    row = _seek(session, task, where)
    if row is None:
        raise NoRhythm(task, str(where))
    session.delete(row)
    session.flush()
    tell(session, f"{task} {where} has no rhythm any more")


def list_rhythms(session: Session) -> list[RhythmLine]:
    """Every rhythm, by task."""
    query = (
        select(CareRhythm, Tank.code, System.name)
        .join(Tank, col(CareRhythm.tank_id) == col(Tank.id), isouter=True)
        .join(System, col(CareRhythm.system_id) == col(System.id), isouter=True)
    )
    lines = [
        RhythmLine(r.task, tank, system, r.role, r.times_a_day, r.every_days, r.started)
        for r, tank, system in session.exec(query)
    ]
    order = {task: at for at, task in enumerate(read_tasks(session))}
    return sorted(
        lines,
        key=lambda line: (
            order.get(line.task, len(order)),
            str(Where(line.tank, line.system, line.role)),
        ),
    )


def set_walking_order(session: Session, *, tanks: Sequence[str]) -> list[str]:
    """Set the way through the house: these tanks first, the others after them as before.

    Raises
    ------
    NoSuchTank
    """
    named = list(dict.fromkeys(find_tank(session, code).id for code in tanks))
    others = [key for key in read_tanks(session) if key not in named]
    rows = {row.id: row for row in session.exec(select(Tank))}
    for at, key in enumerate([*named, *others], start=1):
        rows[key].walking_order = at
        session.add(rows[key])
    session.flush()
    tell(session, f"the walk begins at {', '.join(tanks[:3])}")
    return [rows[key].code for key in [*named, *others]]


def _seek(session: Session, task: str, where: Where) -> CareRhythm | None:
    tank = find_tank(session, where.tank).id if where.tank else None
    system = find_system(session, where.system).id if where.system else None
    return session.exec(
        select(CareRhythm).where(
            CareRhythm.task == task,
            col(CareRhythm.tank_id).is_not_distinct_from(tank),
            col(CareRhythm.system_id).is_not_distinct_from(system),
            col(CareRhythm.role).is_not_distinct_from(where.role),
        )
    ).first()
