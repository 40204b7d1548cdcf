"""Find animals by what is typed, a page at a time; the database does the looking."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from typing import Any, NamedTuple

from sqlalchemy import ColumnElement, Select, exists, func, or_, select
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
    ids = _page_of_ids(session, sought, limit, offset)
    found = {row[0]: Found._make(row) for row in session.execute(_animals(ids))}
    return [found[animal_id] for animal_id in ids]


def _page_of_ids(session: Session, sought: Sought, limit: int, offset: int) -> list[int]:
    """Ids in the order of the list: both parts walk the index of tags and stop when full."""
    query, lower = _sought(sought), func.lower(col(Animal.tag))
    if not sought.words:
        return list(session.scalars(query.order_by(lower).limit(limit).offset(offset)))
    begins = _begins(sought.words[0])
    first = query.where(begins)
    ids = list(session.scalars(first.order_by(lower).limit(limit).offset(offset)))
    if len(ids) < limit:
        before = session.scalar(select(func.count()).select_from(first.subquery())) or 0
        rest = query.where(~begins).order_by(lower).limit(limit - len(ids))
        ids += session.scalars(rest.offset(max(offset - before, 0)))
    return ids


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
    return {animal: code for animal, code in session.execute(query)}  # noqa: C416 - a row is no pair to mypy


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


def _animals(ids: Sequence[int]) -> Select[Any]:
    return (
        select(*_COLUMNS)
        .join(Species, col(Animal.species_id) == col(Species.id), isouter=True)
        .join(Litter, col(Animal.litter_id) == col(Litter.id), isouter=True)
        .join(Dam, col(Dam.id) == func.coalesce(Litter.dam_id, Animal.dam_id), isouter=True)
        .join(Sire, col(Sire.id) == func.coalesce(Animal.sire_id, _sole_sire()), isouter=True)
        .where(col(Animal.id).in_(ids))
    )


def _sole_sire() -> ColumnElement[int | None]:
    """The sire of a litter, where only one is possible."""
    sires = select(func.min(PossibleSire.sire_id)).where(
        col(PossibleSire.litter_id) == col(Animal.litter_id)
    )
    return sires.having(func.count() == 1).correlate(Animal).scalar_subquery()


def _sought(sought: Sought) -> Select[Any]:
    """Ids of the animals sought, in the order of the list."""
    query: Select[Any] = select(col(Animal.id))
    if sought.status is not None:
        query = query.where(col(Animal.status) == sought.status)
    if sought.sex is not None:
        query = query.where(col(Animal.sex) == sought.sex)
    if sought.species is not None:
        own = select(col(Species.id)).where(col(Species.name) == sought.species)
        query = query.where(col(Animal.species_id).in_(own))
    for word in sought.words:
        query = query.where(_says(word))
    return query


def _begins(word: str) -> ColumnElement[bool]:
    """The tag begins with a word; the range is what the index of tags can answer."""
    lower, first = func.lower(col(Animal.tag)), func.lower(word)
    in_range = (lower >= first) & (lower < first.concat("\N{REPLACEMENT CHARACTER}"))
    return in_range & col(Animal.tag).ilike(_like(word, before=""), escape="\\")


def _says(word: str) -> ColumnElement[bool]:
    """A word stands in an animal's own texts, its species', or its possible parents' tags.

    Species and the parents of litters are looked up once for all animals, not once for each.
    """

    def says(*texts: Any) -> ColumnElement[bool]:  # noqa: ANN401 - columns of any table
        return or_(*(col(text).ilike(_like(word), escape="\\") for text in texts))

    of_dam = select(col(Litter.id)).join(Dam, col(Dam.id) == col(Litter.dam_id))
    of_sire = select(col(PossibleSire.litter_id)).join(
        Sire, col(Sire.id) == col(PossibleSire.sire_id)
    )
    return or_(
        says(Animal.tag, Animal.name, Animal.line),
        col(Animal.species_id).in_(select(col(Species.id)).where(says(Species.name))),
        col(Animal.litter_id).in_(
            of_dam.where(says(Dam.tag)).union_all(of_sire.where(says(Sire.tag)))
        ),
        exists().where(col(Dam.id) == col(Animal.dam_id), says(Dam.tag)),
        exists().where(col(Sire.id) == col(Animal.sire_id), says(Sire.tag)),
    )


def _like(text: str, *, before: str = "%") -> str:
    plain = text.replace("\\", "\\\\").replace("%", "\\%").replace("_", "\\_")
    return f"{before}{plain}%"
