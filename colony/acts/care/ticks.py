"""Write one line of the round; other acts tick off with it what they have just done."""

from datetime import date

from sqlmodel import Session

from colony.planning.care.walking_order import WorkPlace
from colony.records import CareDone
from colony.store.readers.care import Floor, read_floor


def write_done(
    session: Session,
    floor: Floor,
    task: str,
    place: WorkPlace,
    on: date,
    *,
    note: str | None = None,
    skipped_why: str | None = None,
) -> None:
    """Write that a task was done at a place, or was let go for a reason."""
    at_tank = floor.task(task).per == "tank"
    session.add(
        CareDone(
            task=task,
            done_on=on,
            tank_id=floor.tank_ids[place.name] if at_tank else None,
            system_id=None if at_tank else floor.system_ids[place.name],
            skipped_why=skipped_why,
            note=note,
        )
    )
    session.flush()


def note_done(
    session: Session, *, task: str, place: str, on: date, note: str | None = None
) -> None:
    """Tick off a task that another act has just done, such as a feeding or a water change.

    `place` is the code of a tank or the name of a system; one that is no part of the walk (a
    system without a tank in use) has nothing to tick.
    """
    floor = read_floor(session, on)
    per = floor.task(task).per
    for where in floor.places:
        if (where.per, where.name) == (per, place):
            write_done(session, floor, task, where, on, note=note)
