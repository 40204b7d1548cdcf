"""The young of a litter: the animals, their tags, and the tank they begin in."""

from collections.abc import Iterable, Sequence
from itertools import count
from typing import Any

from sqlmodel import Session, func, select

from colony.acts.animals.parents import PossibleParent
from colony.notation.pups import PupCount
from colony.notation.tags import LONGEST_TAG
from colony.records import Animal, Litter, Placement, Tank
from colony.store.lookup import seek_animal
from colony.store.settings import read_settings


def next_litter_code(session: Session, year: int) -> str:
    """Litters are counted through a year: ``26-01``."""
    prefix = f"{year % 100:02d}-"
    taken = session.exec(select(Litter.code).where(func.substr(Litter.code, 1, 3) == prefix)).all()
    numbers = [int(code[3:]) for code in taken if code[3:].isdecimal()]
    return f"{prefix}{max(numbers, default=0) + 1:02d}"


def write_pups(
    session: Session,
    litter: Litter,
    mother: Animal,
    fathers: Sequence[PossibleParent],
    pups: PupCount,
) -> list[Animal]:
    """Write an animal for each live young, tagged in the book's pattern."""
    tags = _free_tags(session, litter, mother.tag, pups.sexes())
    named = [father.animal for father in fathers if father.animal]
    # A hybrid has no species of its own: it is known by its parents.
    pure = {father.species_id for father in named} <= {mother.species_id}
    one_line = {father.line for father in named} <= {mother.line}
    young = [
        Animal(
            tag=tag,
            species_id=mother.species_id if pure else None,
            line=mother.line if one_line else None,
            sex=sex,
            born=litter.born,
            origin="born here",
            litter_id=litter.id,
        )
        for tag, sex in zip(tags, pups.sexes(), strict=True)
    ]
    session.add_all(young)
    session.flush()
    return young


def settle_in(session: Session, pups: Sequence[Animal], tank: Tank | None, litter: Litter) -> None:
    """Put the pups of a litter into a tank from their birth on."""
    if tank is None:
        return
    for pup in pups:
        assert pup.id is not None and tank.id is not None  # noqa: S101, PT018 - both are in the book
        session.add(Placement(animal_id=pup.id, tank_id=tank.id, entered_on=litter.born))
    session.flush()


def _free_tags(session: Session, litter: Litter, dam: str, sexes: str) -> Iterable[str]:
    """One tag a pup; a number that is taken is passed over."""
    pattern = read_settings(session).pup_tag
    year = litter.born.year
    numbers = count(1)
    for sex in sexes:
        facts = {
            "litter": litter.code,
            "dam": dam,
            "yy": f"{year % 100:02d}",
            "yyyy": year,
            "sex": sex,
        }
        tags = (_fitting(pattern, facts | {"n": n}) for n in numbers)
        yield next(tag for tag in tags if seek_animal(session, tag) is None)


def _fitting(pattern: str, facts: dict[str, Any]) -> str:
    """A tag in the book's pattern; a dam's long tag is cut, never the number."""
    dam: str = facts["dam"]
    over = len(pattern.format(**facts)) - LONGEST_TAG
    kept = max(len(dam) - -(-over // max(pattern.count("{dam}"), 1)), 1)
    return pattern.format(**facts | {"dam": dam[:kept]}) if over > 0 else pattern.format(**facts)
