"""Everybody in the book at a glance: one light row an animal, in the order written down."""

from dataclasses import dataclass
from datetime import date
from typing import Any, NamedTuple

from sqlalchemy import func, select
from sqlmodel import Session, col

from colony.notation.days import Day
from colony.records import Animal, Measurement, Placement, Species, Tank


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


_COLUMNS: tuple[Any, ...] = (
    Animal.id,
    Animal.tag,
    Animal.name,
    Animal.sex,
    Species.name,
    Animal.line,
    Animal.born,
    Animal.born_precision,
    Animal.status,
    Animal.ended_on,
    Animal.dam_id,
    Animal.sire_id,
    Animal.litter_id,
    Animal.held_back,
    Animal.reserved_for,
    Animal.breeding_ban,
    Animal.mature_since,
    Animal.origin,
)


def read_herd(session: Session) -> Herd:
    """Read everybody, past and present."""
    query = (
        select(*(col(column) for column in _COLUMNS))
        .join(Species, col(Animal.species_id) == col(Species.id), isouter=True)
        .order_by(col(Animal.id))
    )
    rows = tuple(HerdRow._make(row) for row in session.execute(query))
    return Herd(rows, {row.id: place for place, row in enumerate(rows)})


def read_places(session: Session, today: date) -> dict[int, str]:
    """The code of the tank that each animal is in, by animal id."""
    query = (
        select(col(Placement.animal_id), col(Tank.code))
        .join(Tank, col(Placement.tank_id) == col(Tank.id))
        .where(
            col(Placement.entered_on) <= today,
            col(Placement.left_on).is_(None) | (col(Placement.left_on) > today),
        )
    )
    return dict(session.execute(query).all())


def read_last_widths_mm(session: Session) -> dict[int, tuple[date, int]]:
    """The last measured disc width of each animal, with its day, by animal id."""
    last = (
        select(col(Measurement.animal_id), func.max(col(Measurement.measured_on)).label("day"))
        .where(col(Measurement.width_mm).is_not(None))
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
    return {animal: (day, width) for animal, day, width in session.execute(query) if width}
