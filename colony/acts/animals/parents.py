"""Write down who the parents of an animal are, and refuse parents that cannot be."""

from collections.abc import Sequence
from dataclasses import dataclass

from sqlmodel import Session, col, select

from colony.notation.days import Day
from colony.notation.shares import SireShare
from colony.records import Animal, PossibleSire
from colony.refusals.animals import OwnParent, ParentNotOlder, WrongSexForParent
from colony.store.lookup import find_animal

SEX_OF_ROLE = {"dam": "F", "sire": "M"}


@dataclass(frozen=True)
class PossibleParent:
    """A possible sire found in the book (None: somebody unknown), with its share."""

    animal: Animal | None
    share: float


def find_parent(session: Session, tag: str, role: str, *, pup: str, born: Day | None) -> Animal:
    """Find a dam or sire that can be one: of the right sex, and older than the pup.

    Raises
    ------
    NoSuchTag, OwnParent, WrongSexForParent, ParentNotOlder
    """
    parent = find_animal(session, tag)
    if parent.tag == pup:
        raise OwnParent(pup)
    if parent.sex != SEX_OF_ROLE[role]:
        raise WrongSexForParent(parent.tag, parent.sex, role)
    if born is not None and parent.born is not None and parent.born >= born.last:
        raise ParentNotOlder(parent.tag, parent.born, pup, born.first)
    return parent


def find_sires(
    session: Session, sires: Sequence[SireShare], *, pup: str, born: Day | None
) -> list[PossibleParent]:
    """Find all possible sires; refuses as `find_parent` does."""
    return [
        PossibleParent(
            None
            if sire.tag is None
            else find_parent(session, sire.tag, "sire", pup=pup, born=born),
            sire.share,
        )
        for sire in sires
    ]


def set_parents(
    session: Session, animal: Animal, *, dam: str | None, sires: Sequence[SireShare]
) -> None:
    """Set the parents of an animal that was not born in a recorded litter.

    An empty `dam` or no `sires` leaves that side as it is.
    """
    born = Day(animal.born, animal.born_precision) if animal.born else None
    if dam:
        animal.dam_id = find_parent(session, dam, "dam", pup=animal.tag, born=born).id
    if sires:
        found = find_sires(session, sires, pup=animal.tag, born=born)
        _set_sires(session, animal, found)
    session.add(animal)
    session.flush()


def _set_sires(session: Session, animal: Animal, sires: Sequence[PossibleParent]) -> None:
    for row in session.exec(select(PossibleSire).where(col(PossibleSire.animal_id) == animal.id)):
        session.delete(row)
    session.flush()
    sole = sires[0].animal if len(sires) == 1 else None
    animal.sire_id = sole.id if sole else None
    if len(sires) > 1:
        for sire in sires:
            sire_id = sire.animal.id if sire.animal else None
            session.add(PossibleSire(animal_id=animal.id, sire_id=sire_id, share=sire.share))
