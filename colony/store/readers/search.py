"""Find animals by what is typed, a page at a time; the database does the looking."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from typing import Any, NamedTuple

from sqlalchemy import ColumnElement, Select, case, func, or_, select
from sqlalchemy.orm import aliased
from sqlmodel import Session, col

from colony.records import Animal, Litter, Measurement, Placement, PossibleSire, Species, Tank

Dam, Sire = aliased(Animal), aliased(Animal)


@dataclass(frozen=True)
class Sought:
    """What is asked for; None does not narrow. Every word has to be found somewhere."""

    words: Sequence[str] = ()
    status: str | None = "present"
    sex: str | None = None
    species: str | None = None


class Found(NamedTuple):
    """One animal as a list shows it; `sire` is the one beyond doubt, if there is one."""

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
    dam: str | None
    sire: str | None


def find_page(session: Session, sought: Sought, *, limit: int, offset: int) -> list[Found]:
    """One page of what was sought; tags that begin with the first word come first."""
    first = sought.words[0] if sought.words else ""
    begins = case((col(Animal.tag).ilike(_like(first, before=""), escape="\\"), 0), else_=1)
    query = (
        _sought(_animals(), sought)
        .order_by(begins, func.lower(col(Animal.tag)))
        .limit(limit)
        .offset(offset)
    )
    return [Found._make(row) for row in session.execute(query)]


def places_of(session: Session, ids: Sequence[int], today: date) -> dict[int, str]:
    """The tanks of some animals on a day, by animal id."""
    query = (
        select(col(Placement.animal_id), col(Tank.code))
        .join(Tank, col(Placement.tank_id) == col(Tank.id))
        .where(
            col(Placement.animal_id).in_(ids),
            col(Placement.entered_on) <= today,
            col(Placement.left_on).is_(None) | (col(Placement.left_on) > today),
        )
    )
    return dict(session.execute(query).tuples().all())


def widths_of(session: Session, ids: Sequence[int]) -> dict[int, int]:
    """The last measured disc widths of some animals in mm, by animal id."""
    query = (
        select(col(Measurement.animal_id), col(Measurement.width_mm))
        .where(col(Measurement.animal_id).in_(ids), col(Measurement.width_mm).is_not(None))
        .order_by(col(Measurement.measured_on))
    )
    return {animal: width or 0 for animal, width in session.execute(query)}


def tags_beginning(
    session: Session, text: str, *, sex: str | None, status: str | None, limit: int
) -> list[str]:
    """Tags that begin with a text, shortest first; of one sex and status if asked."""
    query = select(col(Animal.tag)).where(
        col(Animal.tag).ilike(_like(text, before=""), escape="\\")
    )
    if sex:
        query = query.where(col(Animal.sex) == sex)
    if status:
        query = query.where(col(Animal.status) == status)
    order = func.length(col(Animal.tag)), func.lower(col(Animal.tag))
    return list(session.scalars(query.order_by(*order).limit(limit)))


def codes_beginning(session: Session, text: str, *, limit: int) -> list[str]:
    """Codes of tanks in use that begin with a text."""
    query = (
        select(col(Tank.code))
        .where(col(Tank.code).ilike(_like(text, before=""), escape="\\"))
        .where(col(Tank.retired_on).is_(None))
        .order_by(func.length(col(Tank.code)), func.lower(col(Tank.code)))
    )
    return list(session.scalars(query.limit(limit)))


_COLUMNS: tuple[Any, ...] = (
    *(Animal.id, Animal.tag, Animal.name, Animal.sex, Species.name, Animal.line),
    *(Animal.born, Animal.born_precision, Animal.status, Animal.ended_on, Dam.tag, Sire.tag),
)


def _animals() -> Select[Any]:
    return (
        select(*_COLUMNS)
        .join(Species, col(Animal.species_id) == col(Species.id), isouter=True)
        .join(Litter, col(Animal.litter_id) == col(Litter.id), isouter=True)
        .join(Dam, col(Dam.id) == func.coalesce(Litter.dam_id, Animal.dam_id), isouter=True)
        .join(Sire, col(Sire.id) == func.coalesce(Animal.sire_id, _sole_sire()), isouter=True)
    )


def _sole_sire() -> ColumnElement[int | None]:
    """The sire of a litter, where only one is possible."""
    sires = select(func.min(PossibleSire.sire_id)).where(
        col(PossibleSire.litter_id) == col(Animal.litter_id)
    )
    return sires.having(func.count() == 1).correlate(Animal).scalar_subquery()


def _sought(query: Select[Any], sought: Sought) -> Select[Any]:
    exact = (
        (Animal.status, sought.status),
        (Animal.sex, sought.sex),
        (Species.name, sought.species),
    )
    for column, wanted in exact:
        if wanted is not None:
            query = query.where(col(column) == wanted)
    for word in sought.words:
        query = query.where(_says(word))
    return query


def _says(word: str) -> ColumnElement[bool]:
    pattern = _like(word)
    texts = (Animal.tag, Animal.name, Species.name, Animal.line, Dam.tag, Sire.tag)
    return or_(*(col(text).ilike(pattern, escape="\\") for text in texts))


def _like(text: str, *, before: str = "%") -> str:
    plain = text.replace("\\", "\\\\").replace("%", "\\%").replace("_", "\\_")
    return f"{before}{plain}%"
