"""Find animals while typing: a page at a time, and the tags that a beginning may become."""

from collections.abc import Sequence
from datetime import date

from sqlmodel import Session, col, select

from colony.notation.words import SEX_WORDS
from colony.records import Animal
from colony.store.lookup import find_animal, find_animals
from colony.store.readers.animals.listed import ListedAnimal, read_listed
from colony.store.readers.animals.search import (
    AnimalFilter,
    codes_beginning,
    find_page,
    tags_beginning,
)

__all__ = [
    "AnimalFilter",
    "ListedAnimal",
    "complete_tag",
    "complete_tank",
    "name_animal",
    "search_animals",
    "who_are",
    "who_is",
]

PAGE_LINES = 60
"""Animals a page; more than a screen shows, so that the next page is there before the end."""


def search_animals(
    session: Session,
    *,
    wanted: AnimalFilter,
    offset: int = 0,
    limit: int = PAGE_LINES,
    today: date,
) -> list[ListedAnimal]:
    """One page of the animals wanted; shorter than `limit` when it is the last one."""
    ids = find_page(session, wanted, today, limit=limit, offset=offset)
    return read_listed(session, ids, today)


def who_is(session: Session, *, tag: str, today: date) -> ListedAnimal:
    """One animal as a list shows it; `NoSuchTag` where there is none."""
    return read_listed(session, [find_animal(session, tag).id or 0], today)[0]


def who_are(session: Session, *, tags: Sequence[str], today: date) -> list[ListedAnimal]:
    """Animals of a few tags as a list shows them, in the order of the tags."""
    query = select(Animal.tag, Animal.id).where(col(Animal.tag).in_(tags))
    ids = {tag: number or 0 for tag, number in session.exec(query)}
    return read_listed(session, [ids[tag] for tag in tags if tag in ids], today)


def tags_meant(session: Session, *, tags: Sequence[str]) -> tuple[str, ...]:
    """The tags of all animals that are meant; ``litter 26-01`` is its pups that are here."""
    return tuple(animal.tag for animal in find_animals(session, tags))


def name_animal(session: Session, *, tag: str, today: date) -> str:
    """An animal so that nobody takes it for another: ``Wanda, female motoro, in N5``."""
    hit = who_is(session, tag=tag, today=today)
    kind = " ".join(word for word in (SEX_WORDS[hit.sex], hit.species) if word)
    return f"{hit.tag}, {kind}, in {hit.tank or 'no tank'}"


def complete_tag(
    session: Session,
    *,
    text: str,
    sex: str | None = None,
    status: str | None = "present",
    limit: int = 6,
) -> list[str]:
    """Tags that a beginning may become, the shortest first."""
    return tags_beginning(session, text, sex=sex, status=status, limit=limit) if text else []


def complete_tank(session: Session, *, text: str, limit: int = 6) -> list[str]:
    """Tank codes that a beginning may become."""
    return codes_beginning(session, text, limit=limit) if text else []
