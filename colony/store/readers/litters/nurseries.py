"""The nursery tanks: which are free, and what the others wait for."""

from collections.abc import Collection
from datetime import date, timedelta
from typing import NamedTuple

from sqlalchemy import func, select
from sqlmodel import Session, col

from colony.planning.litters.nurseries import Nursery
from colony.records import Animal, Litter, Placement, System, Tank
from colony.store.readers.animals.herd import lives_there
from colony.store.readers.rows import read_rows
from colony.store.settings import BookSettings


class _Resident(NamedTuple):
    """A nursery and one animal in it; a nursery that is empty has one row without an animal."""

    tank: str
    system: str
    filter_started: date | None
    tag: str | None
    litter: str | None
    born: date | None


def read_nurseries(
    session: Session, settings: BookSettings, today: date, *, due: Collection[str]
) -> list[Nursery]:
    """Read every nursery in walking order, and from when each can take a litter.

    Parameters
    ----------
    due
        Tags of the dams that wait for a litter: they do not stand in their own way.
    """
    waits: dict[str, tuple[date, str]] = {}
    for row in _residents(session, today):
        latest = waits.setdefault(row.tank, (date.min, ""))
        waits[row.tank] = max(
            latest, _filter_matures(row, settings), _leaves(row, settings, today, due)
        )
    return [Nursery(tank, *wait) for tank, wait in waits.items()]


def _filter_matures(row: _Resident, settings: BookSettings) -> tuple[date, str]:
    if row.filter_started is None:
        return date.min, ""
    mature = row.filter_started + timedelta(weeks=settings.nursery_weeks)
    return mature, f"the filter of {row.system} to mature"


def _leaves(
    row: _Resident, settings: BookSettings, today: date, due: Collection[str]
) -> tuple[date, str]:
    """Tell when an animal makes room: a pup after its stay, another one nobody knows."""
    if row.tag is None or row.tag in due:
        return date.min, ""
    if row.born is None:
        return date.max, f"{row.tag} to leave"
    stayed = row.born + timedelta(days=settings.nursery_stay_days)
    return max(stayed, today), f"litter {row.litter} to leave"


def _residents(session: Session, today: date) -> list[_Resident]:
    here = (col(Placement.tank_id) == col(Tank.id)) & lives_there(today)
    query = (
        select(
            col(Tank.code),
            col(System.name),
            col(System.started),
            col(Animal.tag),
            col(Litter.code),
            col(Litter.born),
        )
        .join(System, col(Tank.system_id) == col(System.id))
        .join(Placement, here, isouter=True)
        .join(Animal, col(Placement.animal_id) == col(Animal.id), isouter=True)
        .join(Litter, col(Animal.litter_id) == col(Litter.id), isouter=True)
        .where(col(Tank.role) == "nursery", col(Tank.retired_on).is_(None))
        .order_by(
            func.coalesce(col(Tank.walking_order), 1_000_000), col(System.name), col(Tank.code)
        )
    )
    return list(map(_Resident._make, read_rows(session, query)))
