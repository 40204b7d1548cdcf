"""The list of the herd."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date

from sqlalchemy import ColumnElement
from sqlmodel import Session, col, select

from colony.notation.days import Day
from colony.records import Animal, Measurement
from colony.store.lookup import find_species, find_tank
from colony.store.readers.animals.herd import HerdRow, read_last_widths_mm, read_places
from colony.store.readers.pedigree import Lineage, read_lineage


@dataclass(frozen=True)
class HerdFilter:
    """Which animals to list; None does not narrow."""

    status: str | None = "present"
    species: str | None = None
    sex: str | None = None
    line: str | None = None
    tank: str | None = None
    search: str | None = None


@dataclass(frozen=True)
class AnimalLine:
    """One animal in the list."""

    tag: str
    name: str | None
    sex: str
    species: str | None
    line: str | None
    born: str | None
    age_days: int | None
    dam: str | None
    sires: list[str]
    status: str
    tank: str | None
    disc_width_mm: int | None
    inbreeding: float


def list_animals(
    session: Session, *, wanted: HerdFilter, most: int | None = None, today: date
) -> tuple[list[AnimalLine], int]:
    """The herd, narrowed by what is wanted, in the order in which it was written down.

    At most so many lines, and how many more there are.

    Raises
    ------
    NoSuchSpecies, NoSuchTank
    """
    if wanted.species:
        wanted = replace(wanted, species=find_species(session, wanted.species).name)
    if wanted.tank:
        wanted = replace(wanted, tank=find_tank(session, wanted.tank).code)
    lineage = read_lineage(session)
    places = read_places(session, today)
    rows = [row for row in lineage.herd.rows if _is_wanted(row, wanted, lineage, places)]
    shown = rows[:most]
    widths_mm = read_last_widths_mm(session, *_measured(wanted.status))
    inbreeding = lineage.inbreeding([row.id for row in shown])
    lines = [
        AnimalLine(
            tag=row.tag,
            name=row.name,
            sex=row.sex,
            species=row.species,
            line=row.line,
            born=str(row.birthday) if row.birthday else None,
            age_days=age_days(row.birthday, row.ended_on or today),
            dam=lineage.parents.tag(lineage.parents.dam_id(row)),
            sires=lineage.parents.written(lineage.parents.sires(row)),
            status=row.status,
            tank=places.get(row.id),
            disc_width_mm=widths_mm[row.id][1] if row.id in widths_mm else None,
            inbreeding=f,
        )
        for row, f in zip(shown, inbreeding, strict=True)
    ]
    return lines, len(rows) - len(shown)


def _measured(status: str | None) -> tuple[ColumnElement[bool], ...]:
    """Measurements of those of a status only: most of a book is of animals long gone."""
    if status is None:
        return ()
    of_status = select(Animal.id).where(Animal.status == status)
    return (col(Measurement.animal_id).in_(of_status),)


def age_days(born: Day | None, on: date) -> int | None:
    """Age on a day; where only month or year is known, the least it can be."""
    return None if born is None else max((on - min(born.last, on)).days, 0)


def _is_wanted(row: HerdRow, wanted: HerdFilter, lineage: Lineage, places: dict[int, str]) -> bool:
    exact: Sequence[tuple[str | None, str | None]] = (
        (wanted.status, row.status),
        (wanted.sex, row.sex),
        (wanted.line, row.line),
        (wanted.species, row.species),
        (wanted.tank, places.get(row.id)),
    )
    if any(asked and asked.casefold() != (has or "").casefold() for asked, has in exact):
        return False
    return not wanted.search or _matches(row, wanted.search.casefold(), lineage)


def _matches(row: HerdRow, word: str, lineage: Lineage) -> bool:
    dam = lineage.parents.tag(lineage.parents.dam_id(row))
    sires = (lineage.parents.tag(sire) for sire, _ in lineage.parents.sires(row))
    texts = (row.tag, row.name, row.species, row.line, dam, *sires)
    return any(word in text.casefold() for text in texts if text)
