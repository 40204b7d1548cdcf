"""Look at litters: the list, and one litter with its pups."""

from dataclasses import dataclass
from datetime import date
from typing import Any

from sqlalchemy import select
from sqlmodel import Session, col

from colony.records import Animal, Litter, Measurement, Tank
from colony.store.lookup import find_animal, find_litter
from colony.store.readers.animals.herd import read_herd, read_last_widths_mm, read_places
from colony.store.readers.litters.parents import read_parents
from colony.store.readers.rows import read_rows


@dataclass(frozen=True)
class LitterLine:
    """One litter in the list."""

    litter: str
    born: date
    dam: str
    sires: list[str]
    live: int
    dead: int
    present: int
    tank: str | None


@dataclass(frozen=True)
class PupLine:
    """One pup on the page of its litter."""

    tag: str
    sex: str
    status: str
    tank: str | None
    disc_width_mm: int | None
    sires: list[str]


@dataclass(frozen=True)
class LitterDetails:
    """One litter with its pups and their inbreeding."""

    litter: str
    born: date
    dam: str
    sires: list[str]
    pups_may_differ: bool
    live: int
    dead: int
    inbreeding: float
    inbreeding_low: float
    inbreeding_high: float
    completeness: float
    note: str | None
    pups: tuple[PupLine, ...]


def list_litters(
    session: Session, *, dam: str | None = None, since: date | None = None
) -> list[LitterLine]:
    """All litters, the youngest first; of one dam, or since a day.

    Raises
    ------
    NoSuchTag
    """
    mother = find_animal(session, dam) if dam else None
    herd = read_herd(session)
    parents = read_parents(session, herd)
    living: dict[int, int] = {}
    for row in herd.rows:
        if row.litter_id is not None and row.status == "present":
            living[row.litter_id] = living.get(row.litter_id, 0) + 1
    query = (
        select(*(col(column) for column in _COLUMNS))
        .join(Tank, col(Litter.tank_id) == col(Tank.id), isouter=True)
        .order_by(col(Litter.born).desc(), col(Litter.id).desc())
    )
    if mother is not None:
        query = query.where(col(Litter.dam_id) == mother.id)
    if since is not None:
        query = query.where(col(Litter.born) >= since)
    return [
        LitterLine(
            litter=code,
            born=born,
            dam=herd.by_id(dam_id).tag,
            sires=parents.written(parents.sires_of_litter(litter_id)),
            live=live,
            dead=dead,
            present=living.get(litter_id, 0),
            tank=tank,
        )
        for litter_id, code, born, dam_id, live, dead, tank in read_rows(session, query)
    ]


_COLUMNS: tuple[Any, ...] = (
    *(Litter.id, Litter.code, Litter.born, Litter.dam_id, Litter.live, Litter.dead),
    Tank.code,
)


def show_litter(session: Session, *, code: str, today: date) -> LitterDetails:
    """One litter; `NoSuchLitter` where there is none."""
    from colony.store.readers.pedigree import litter_kin, read_lineage  # noqa: PLC0415 - loads numpy

    litter = find_litter(session, code)
    lineage = read_lineage(session)
    herd, parents = lineage.herd, lineage.parents
    kin = litter_kin(lineage, litter)
    places = read_places(session, today)
    of_litter = select(col(Animal.id)).where(col(Animal.litter_id) == litter.id)
    widths_mm = read_last_widths_mm(session, col(Measurement.animal_id).in_(of_litter))
    pups = tuple(
        PupLine(
            tag=row.tag,
            sex=row.sex,
            status=row.status,
            tank=places.get(row.id),
            disc_width_mm=widths_mm[row.id][1] if row.id in widths_mm else None,
            sires=parents.written(parents.sires(row)),
        )
        for row in herd.rows
        if row.litter_id == litter.id
    )
    return LitterDetails(
        litter=litter.code,
        born=litter.born,
        dam=herd.by_id(litter.dam_id).tag,
        sires=kin.sires,
        pups_may_differ=litter.pups_may_differ,
        live=litter.live,
        dead=litter.dead,
        inbreeding=kin.inbreeding,
        inbreeding_low=kin.low,
        inbreeding_high=kin.high,
        completeness=kin.completeness,
        note=litter.note,
        pups=pups,
    )
