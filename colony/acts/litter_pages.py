"""Look at litters: the list, and one litter with its pups."""

from dataclasses import dataclass
from datetime import date

from sqlmodel import Session, col, select

from colony.records import Litter, Tank
from colony.store.lookup import find_litter
from colony.store.readers.herd import read_herd, read_last_widths_mm, read_places
from colony.store.readers.parents import Parents, read_parents
from colony.store.readers.pedigree import litter_kin


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
class LitterPage:
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
    """All litters, the youngest first; of one dam, or since a day."""
    herd = read_herd(session)
    parents = read_parents(session, herd)
    living: dict[int, int] = {}
    for row in herd.rows:
        if row.litter_id is not None and row.status == "present":
            living[row.litter_id] = living.get(row.litter_id, 0) + 1
    codes = dict(session.exec(select(Tank.id, Tank.code)).all())
    query = select(Litter).order_by(col(Litter.born).desc(), col(Litter.id).desc())
    lines = [
        _line(litter, parents, living, codes.get(litter.tank_id)) for litter in session.exec(query)
    ]
    return [
        line
        for line in lines
        if (dam is None or line.dam.casefold() == dam.casefold())
        and (since is None or line.born >= since)
    ]


def show_litter(session: Session, *, code: str, today: date) -> LitterPage:
    """One litter; `NoSuchLitter` where there is none."""
    litter = find_litter(session, code)
    herd = read_herd(session)
    parents = read_parents(session, herd)
    kin = litter_kin(session, litter)
    places, widths_mm = read_places(session, today), read_last_widths_mm(session)
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
    return LitterPage(
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


def _line(litter: Litter, parents: Parents, living: dict[int, int], tank: str | None) -> LitterLine:
    assert litter.id is not None  # noqa: S101 - it was read from the book
    return LitterLine(
        litter=litter.code,
        born=litter.born,
        dam=parents.herd.by_id(litter.dam_id).tag,
        sires=parents.written(parents.sires_of_litter(litter.id)),
        live=litter.live,
        dead=litter.dead,
        present=living.get(litter.id, 0),
        tank=tank,
    )
