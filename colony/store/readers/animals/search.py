"""Find animals by what is typed, a page at a time; the database does the looking."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from typing import Any

from sqlalchemy import ColumnElement, Select, exists, func, or_, select
from sqlalchemy.orm import aliased
from sqlmodel import Session, col

from colony.records import Animal, Litter, Placement, PossibleSire, Species, Tank
from colony.store.readers.animals.herd import lives_there

Dam, Sire, Pup = aliased(Animal), aliased(Animal), aliased(Animal)


@dataclass(frozen=True)
class AnimalFilter:
    """Which animals are wanted; None does not narrow. Every word has to be found somewhere."""

    words: Sequence[str] = ()
    status: str | None = "present"
    sex: str | None = None
    species: str | None = None
    line: str | None = None
    tank: str | None = None


def find_all(session: Session, wanted: AnimalFilter, today: date) -> list[int]:
    """Ids of everybody wanted, in the order in which they were written down."""
    return list(session.scalars(_wanted(session, wanted, today).order_by(col(Animal.id))))


def find_page(
    session: Session, wanted: AnimalFilter, today: date, *, limit: int, offset: int
) -> list[int]:
    """Ids of one page of those wanted, by tag; those that begin with the first word come first.

    Both parts walk the index of tags and stop when the page is full.
    """
    query, lower = _wanted(session, wanted, today), func.lower(col(Animal.tag))
    if not wanted.words:
        return list(session.scalars(query.order_by(lower).limit(limit).offset(offset)))
    word = wanted.words[0]
    start = func.lower(word)
    # The range is what the index of tags can answer.
    in_range = (lower >= start) & (lower < start.concat("\N{REPLACEMENT CHARACTER}"))
    begins = in_range & col(Animal.tag).ilike(_like(word, before=""), escape="\\")
    first = query.where(begins)
    ids = list(session.scalars(first.order_by(lower).limit(limit).offset(offset)))
    if len(ids) < limit:
        before = session.scalar(select(func.count()).select_from(first.subquery())) or 0
        rest = query.where(~begins).order_by(lower).limit(limit - len(ids))
        ids += session.scalars(rest.offset(max(offset - before, 0)))
    return ids


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


def _wanted(session: Session, wanted: AnimalFilter, today: date) -> Select[Any]:
    """Ids of the animals wanted."""
    query: Select[Any] = select(col(Animal.id))
    for column, asked in ((Animal.status, wanted.status), (Animal.sex, wanted.sex)):
        if asked:
            query = query.where(col(column) == asked)
    if wanted.species:
        own = select(col(Species.id)).where(col(Species.name) == wanted.species)
        query = query.where(col(Animal.species_id).in_(own))
    if wanted.line:
        # SQLite folds only the letters of English, so every way the line is written is asked for.
        written = session.scalars(select(col(Animal.line)).distinct())
        same = [line for line in written if line and line.casefold() == wanted.line.casefold()]
        query = query.where(col(Animal.line).in_(same))
    if wanted.tank:
        here = select(col(Placement.animal_id)).join(Tank, col(Placement.tank_id) == col(Tank.id))
        query = query.where(
            col(Animal.id).in_(here.where(col(Tank.code) == wanted.tank, lives_there(today)))
        )
    for word in wanted.words:
        query = query.where(_says(word))
    return query


def _says(word: str) -> ColumnElement[bool]:
    """A word stands in an animal's own texts, its species', or its possible parents' tags.

    Species and the parents of litters are looked up once for all animals, not once for each.
    """
    # In capitals and in small letters too, which SQLite folds in English only.
    spellings = {word, word.lower(), word.upper(), word.capitalize()}
    likes = [_like(text) for text in ({word} if word.isascii() else spellings)]

    def says(*texts: Any) -> ColumnElement[bool]:  # noqa: ANN401 - columns of any table
        return or_(*(col(text).ilike(like, escape="\\") for text in texts for like in likes))

    of_dam = select(col(Litter.id)).join(Dam, col(Dam.id) == col(Litter.dam_id))
    return or_(
        says(Animal.tag, Animal.name, Animal.line),
        col(Animal.species_id).in_(select(col(Species.id)).where(says(Species.name))),
        col(Animal.litter_id).in_(of_dam.where(says(Dam.tag))),
        exists().where(col(Dam.id) == col(Animal.dam_id), says(Dam.tag)),
        exists().where(col(Sire.id) == col(Animal.sire_id), says(Sire.tag)),
        col(Animal.sire_id).is_(None) & _possible_sire(says(Sire.tag)),
    )


def _possible_sire(says: ColumnElement[bool]) -> ColumnElement[bool]:
    """A possible sire of the animal, or of its litter unless a test on one pup has settled it."""
    settled = (
        select(col(Pup.litter_id))
        .join(Litter, col(Litter.id) == col(Pup.litter_id))
        # The index of sires answers this; it cannot answer IS NOT NULL.
        .where(col(Pup.sire_id) > 0, col(Litter.pups_may_differ).is_(False))
    )
    of_litter, of_animal = col(PossibleSire.litter_id), col(PossibleSire.animal_id)
    by_sire = Sire, col(Sire.id) == col(PossibleSire.sire_id)
    in_doubt = select(of_litter).join(*by_sire).where(says, of_litter.not_in(settled))
    by_test = settled.join(Sire, col(Sire.id) == col(Pup.sire_id)).where(says)
    return or_(
        col(Animal.litter_id).in_(in_doubt.union_all(by_test)),
        col(Animal.id).in_(select(of_animal).join(*by_sire).where(says, of_animal > 0)),
    )


def _like(text: str, *, before: str = "%") -> str:
    plain = text.replace("\\", "\\\\").replace("%", "\\%").replace("_", "\\_")
    return f"{before}{plain}%"
