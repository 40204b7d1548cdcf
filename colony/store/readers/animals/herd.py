"""Everybody in the book at a glance: one light row an animal, in the order written down."""

from collections.abc import Collection
from dataclasses import dataclass
from datetime import date
from typing import NamedTuple

from sqlalchemy import ColumnElement, exists, func, select, union
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

    def by_id(self, animal_id: int) -> HerdRow:
        """The row of an animal."""
        return self.rows[self.position[animal_id]]


_COLUMNS = tuple(
    Species.name if name == "species" else getattr(Animal, name) for name in HerdRow._fields
)


def read_herd(session: Session, *only: ColumnElement[bool]) -> Herd:
    """Read everybody, past and present, or only those of whom all of `only` holds."""
    query = (
        select(*(col(column) for column in _COLUMNS))
        .join(Species, col(Animal.species_id) == col(Species.id), isouter=True)
        .where(*only)
        .order_by(col(Animal.id))
    )
    rows = tuple(map(HerdRow._make, read_rows(session, query)))
    return Herd(rows, {row.id: place for place, row in enumerate(rows)})


def read_breeders(session: Session) -> Herd:
    """Read everybody who was ever paired, looked at for a pregnancy, or bore a litter."""
    bred = union(
        select(col(Pairing.dam_id)),
        select(col(PairingSire.sire_id)),
        select(col(PregnancyFinding.dam_id)),
        select(col(Litter.dam_id)),
    )
    return read_herd(session, col(Animal.id).in_(bred))


def lives_there(today: date) -> ColumnElement[bool]:
    """A placement is that of today; who died or left today is in no tank any more.

    Its last day there is that of its end, so the placement alone does not say so.
    """
    still = col(Placement.left_on).is_(None) | (col(Placement.left_on) > today)
    its_end = aliased(Animal)
    gone = exists().where(
        col(its_end.id) == col(Placement.animal_id), col(its_end.ended_on) <= today
    )
    return (col(Placement.entered_on) <= today) & still & ~gone


def read_places(
    session: Session, today: date, ids: Collection[int] | None = None
) -> dict[int, str]:
    """The code of the tank that each animal is in, or some of them, by animal id."""
    query = (
        select(col(Placement.animal_id), col(Tank.code))
        .join(Tank, col(Placement.tank_id) == col(Tank.id))
        .where(lives_there(today))
    )
    if ids is not None:
        query = query.where(col(Placement.animal_id).in_(ids))
    return dict(read_rows(session, query))


def read_last_widths_mm(
    session: Session, *only: ColumnElement[bool]
) -> dict[int, tuple[date, int]]:
    """The last measured disc width of each animal, with its day, by animal id.

    `only` narrows the measurements that are looked at.
    """
    last = (
        select(col(Measurement.animal_id), func.max(col(Measurement.measured_on)).label("day"))
        .where(col(Measurement.width_mm).is_not(None), *only)
        .group_by(col(Measurement.animal_id))
        .subquery()
    )
    query = select(
        col(Measurement.animal_id), col(Measurement.measured_on), col(Measurement.width_mm)
    ).join(
        last,
        (col(Measurement.animal_id) == last.c.animal_id)
        & (col(Measurement.measured_on) == last.c.day),
    )
    return {animal: (day, width or 0) for animal, day, width in read_rows(session, query)}
