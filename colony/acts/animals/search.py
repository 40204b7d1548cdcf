"""Find animals while typing: a page at a time, and the tags that a beginning may become."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from sqlmodel import Session

from colony.acts.animals.listing import age_days
from colony.notation.days import Day
from colony.notation.words import SEX_WORDS
from colony.store.lookup import find_animal
from colony.store.readers.animals.search import (
    Found,
    Sought,
    codes_beginning,
    find_page,
    places_of,
    tags_beginning,
    widths_of,
)

__all__ = [
    "Hit",
    "Sought",
    "complete_tag",
    "complete_tank",
    "name_animal",
    "search_animals",
    "who_is",
]

PAGE_LINES = 60
"""Animals a page; more than a screen shows, so that the next page is there before the end."""


@dataclass(frozen=True)
class Hit:
    """One animal that was found."""

    tag: str
    name: str | None
    sex: str
    species: str | None
    line: str | None
    born: str | None
    age_days: int | None
    dam: str | None
    sire: str | None
    status: str
    tank: str | None
    disc_width_mm: int | None


def search_animals(
    session: Session, *, sought: Sought, offset: int = 0, limit: int = PAGE_LINES, today: date
) -> list[Hit]:
    """One page of the animals sought; shorter than `limit` when it is the last one."""
    return _hits(session, find_page(session, sought, limit=limit, offset=offset), today)


def who_is(session: Session, *, tag: str, today: date) -> Hit:
    """One animal as a list shows it; `NoSuchTag` where there is none."""
    found = find_animal(session, tag)
    page = find_page(session, Sought(words=(found.tag,), status=None), limit=PAGE_LINES, offset=0)
    return _hits(session, [one for one in page if one.id == found.id], today)[0]


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


def _hits(session: Session, found: Sequence[Found], today: date) -> list[Hit]:
    ids = [one.id for one in found]
    tanks, widths_mm = places_of(session, ids, today), widths_of(session, ids)
    return [_hit(one, tanks.get(one.id), widths_mm.get(one.id), today) for one in found]


def _hit(one: Found, tank: str | None, width_mm: int | None, today: date) -> Hit:
    born = Day(one.born, one.born_precision) if one.born else None
    return Hit(
        tag=one.tag,
        name=one.name,
        sex=one.sex,
        species=one.species,
        line=one.line,
        born=str(born) if born else None,
        age_days=age_days(born, one.ended_on or today),
        dam=one.dam,
        sire=one.sire,
        status=one.status,
        tank=tank,
        disc_width_mm=width_mm,
    )
