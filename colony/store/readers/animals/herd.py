"""Everybody in the book at a glance: one light row an animal, in the order written down."""

from collections.abc import Collection, Iterable
from dataclasses import dataclass
from datetime import date
from typing import NamedTuple

from sqlalchemy import (
    BindParameter,
    ColumnElement,
    Date,
    Select,
    bindparam,
    exists,
    func,
    select,
    union,
)
from sqlalchemy.orm import aliased
from sqlmodel import Session, col

from colony.notation.days import Day
from colony.records import (
    Animal,
    Litter,
    Measurement,
    Pairing,
    PairingSire,
    Placement,
    PregnancyFinding,
    Species,
    Tank,
)
from colony.store.readers.rows import read_rows


class HerdRow(NamedTuple):
    """One animal as the lists need it; `species` is the short name."""

    id: int
    tag: str
    name: str | None
    sex: str
    species: str | None
    line: str | None
    born: date | None
    born_precision: str
    status: str
    ended_on: date | None
    dam_id: int | None
    sire_id: int | None
    litter_id: int | None
    held_back: bool
    reserved_for: str | None
    breeding_ban: str | None
    mature_since: date | None
    origin: str

    @property
    def birthday(self) -> Day | None:
        """The birth as well as it is known."""
        return Day(self.born, self.born_precision) if self.born else None


@dataclass(frozen=True)
class Herd:
    """All animals, and where each stands by id and by tag."""

    rows: tuple[HerdRow, ...]
    position: dict[int, int]

    def with_rows(self, more: Iterable[HerdRow]) -> "Herd":
        """These animals, and some others after them."""
        rows = (*self.rows, *more)
        return Herd(rows, {row.id: place for place, row in enumerate(rows)})

    def by_id(self, animal_id: int) -> HerdRow:
        """The row of an animal."""
        return self.rows[self.position[animal_id]]


_COLUMNS = tuple(
    Species.name if name == "species" else getattr(Animal, name) for name in HerdRow._fields
)


_ALL = (
    select(*(col(column) for column in _COLUMNS))
    .join(Species, col(Animal.species_id) == col(Species.id), isouter=True)
    .order_by(col(Animal.id))
)
_SOME = _ALL.where(col(Animal.id).in_(bindparam("ids", expanding=True)))
"""Made once: to put a query together takes longer than a page of answers."""


def read_herd(session: Session, *only: ColumnElement[bool]) -> Herd:
    """Read everybody, past and present, or only those of whom all of `only` holds."""
    rows = tuple(map(HerdRow._make, read_rows(session, _ALL.where(*only))))
    return Herd(rows, {row.id: place for place, row in enumerate(rows)})


def read_some(session: Session, ids: Collection[int | None]) -> Herd:
    """Read a few animals by their ids."""
    if not ids:
        return Herd((), {})
    session.flush()
    found = session.connection().execute(_SOME, {"ids": list(ids)})
    rows = tuple(map(HerdRow._make, found))
    return Herd(rows, {row.id: place for place, row in enumerate(rows)})


def read_breeders(session: Session, *, since: date) -> Herd:
    """Read everybody who ever bred, or was here and may have bred since a day.

    Who bred was paired, looked at for a pregnancy, or bore a litter.
    """
    bred = union(
        select(col(Pairing.dam_id)),
        select(col(PairingSire.sire_id)),
        select(col(PregnancyFinding.dam_id)),
        select(col(Litter.dam_id)),
    )
    here = (col(Animal.ended_on).is_(None) & (col(Animal.status) == "present")) | (
        col(Animal.ended_on) >= since
    )
    return read_herd(session, col(Animal.id).in_(bred) | (here & (col(Animal.sex) != "U")))


def lives_there(today: "date | BindParameter[date]") -> ColumnElement[bool]:
    """A placement is that of today; who died or left today is in no tank any more.

    Its last day there is that of its end, so the placement alone does not say so.
    """
    still = col(Placement.left_on).is_(None) | (col(Placement.left_on) > today)
    its_end = aliased(Animal)
    gone = exists().where(
        col(its_end.id) == col(Placement.animal_id), col(its_end.ended_on) <= today
    )
    return (col(Placement.entered_on) <= today) & still & ~gone


_PLACES = (
    select(col(Placement.animal_id), col(Tank.code))
    .join(Tank, col(Placement.tank_id) == col(Tank.id))
    .where(lives_there(bindparam("today", type_=Date())))
)
_PLACES_OF = _PLACES.where(col(Placement.animal_id).in_(bindparam("ids", expanding=True)))


def read_places(
    session: Session, today: date, ids: Collection[int] | None = None
) -> dict[int, str]:
    """The code of the tank that each animal is in, or some of them, by animal id."""
    session.flush()
    found = session.connection()
    if ids is None:
        return dict(found.execute(_PLACES, {"today": today}).all())
    return dict(found.execute(_PLACES_OF, {"today": today, "ids": list(ids)}).all())


def _last_widths(*only: ColumnElement[bool]) -> "Select[int, date, int | None]":
    """The last width of each animal with its day, of the measurements that are looked at."""
    last = (
        select(col(Measurement.animal_id), func.max(col(Measurement.measured_on)).label("day"))
        .where(col(Measurement.width_mm).is_not(None), *only)
        .group_by(col(Measurement.animal_id))
        .subquery()
    )
    return select(
        col(Measurement.animal_id), col(Measurement.measured_on), col(Measurement.width_mm)
    ).join(
        last,
        (col(Measurement.animal_id) == last.c.animal_id)
        & (col(Measurement.measured_on) == last.c.day),
    )


_WIDTHS_OF = _last_widths(col(Measurement.animal_id).in_(bindparam("ids", expanding=True)))


def read_widths_of(session: Session, ids: Collection[int]) -> dict[int, tuple[date, int]]:
    """The last measured disc width in mm of some animals, with its day, by animal id."""
    session.flush()
    found = session.connection().execute(_WIDTHS_OF, {"ids": list(ids)})
    return {animal: (day, width or 0) for animal, day, width in found}


def read_last_widths_mm(
    session: Session, *only: ColumnElement[bool]
) -> dict[int, tuple[date, int]]:
    """The last measured disc width of each animal, with its day, by animal id.

    `only` narrows the measurements that are looked at.
    """
    found = read_rows(session, _last_widths(*only))
    return {animal: (day, width or 0) for animal, day, width in found}
