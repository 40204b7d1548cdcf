"""The clock of every intake system: tanks that share water share it."""

from collections import defaultdict
from collections.abc import Iterable, Mapping
from datetime import date

from sqlalchemy import select
from sqlmodel import Session, col

from colony.planning.tanks.isolation import Clock, Stay, isolation_clock
from colony.records import Animal, Placement


def read_clocks(
    session: Session, intake: Mapping[int, str], days: int, today: date
) -> dict[str, Clock]:
    """The isolation clock of each system with animals in an intake tank, by its name.

    Parameters
    ----------
    intake
        The system of each intake tank, by the tank's id.
    days
        How long isolation lasts.
    """
    clocks: dict[str, Clock] = {}
    for system, stays in _stays(session, intake, today).items():
        clock = isolation_clock(stays, days)
        if clock is not None:
            clocks[system] = clock
    return clocks


def _stays(session: Session, intake: Mapping[int, str], today: date) -> dict[str, list[Stay]]:
    query = (
        select(
            col(Placement.animal_id),
            col(Animal.tag),
            col(Animal.born),
            col(Placement.tank_id),
            col(Placement.entered_on),
            col(Placement.left_on),
        )
        .join(Animal, col(Placement.animal_id) == col(Animal.id))
        .where(col(Placement.tank_id).in_(intake), col(Placement.entered_on) <= today)
        .order_by(col(Placement.animal_id), col(Placement.entered_on))
    )
    of_animal: dict[int, list[tuple[str, date | None, str, date, date | None]]] = defaultdict(list)
    for animal, tag, born, tank, entered, left in session.execute(query):
        of_animal[animal].append((tag, born, intake[tank], entered, left))
    found: dict[str, list[Stay]] = defaultdict(list)
    for rows in of_animal.values():
        tag, born, system, _, left = rows[-1]
        if left is None or left > today:
            since = _in_since(rows, system)
            found[system].append(Stay(tag, since, born_there=born == since))
    return found


def _in_since(rows: Iterable[tuple[str, date | None, str, date, date | None]], system: str) -> date:
    """Since when an animal has been in a system without leaving it; moves within are none."""
    since: date | None = None
    until: date | None = None
    for _, _, of_system, entered, left in rows:
        if of_system != system or until != entered or since is None:
            since = entered
        until = left if of_system == system else None
    assert since is not None  # noqa: S101 - the last row is the stay that is asked for
    return since
