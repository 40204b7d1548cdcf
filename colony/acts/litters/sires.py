"""The sires of a litter: who was there, who is written down, and what a test settles."""

from collections.abc import Mapping, Sequence

from sqlalchemy.orm import aliased
from sqlmodel import Session, col, select

from colony.acts.animals.parents import PossibleParent, find_parent
from colony.notation.shares import SireShare
from colony.planning.guards.table import BEAR
from colony.records import Animal, Litter, Overruling, PairingSire, PossibleSire
from colony.refusals.litters import (
    OneTestedSire,
    SettledOtherwise,
    SireFoundByTest,
    SireNotPossible,
)
from colony.store.lookup import find_animal
from colony.store.readers.litters.dams import PairingRow

OTHER_MALE = "another male"
"""What is overruled where the breeder is sure of a sire although another male was there."""


def write_sires(session: Session, litter: Litter, sires: Sequence[PossibleParent]) -> None:
    """Write the possible sires of a litter, in place of those written before."""
    for row in session.exec(select(PossibleSire).where(PossibleSire.litter_id == litter.id)):
        session.delete(row)
    session.flush()
    for sire in sires:
        sire_id = sire.animal.id if sire.animal else None
        session.add(PossibleSire(litter_id=litter.id, sire_id=sire_id, share=sire.share))
    session.flush()


def settle_sire(session: Session, pup: Animal, sires: Sequence[SireShare]) -> None:
    """Write down that a test found the sire of a pup.

    Raises
    ------
    OneTestedSire
        A test names one sire.
    SireNotPossible
        The litter does not hold that sire possible.
    SettledOtherwise
        The litter has one sire, and another pup's test found another.
    """
    if len(sires) != 1 or sires[0].tag is None:
        raise OneTestedSire(pup.tag)
    sire = find_parent(session, sires[0].tag, "sire", pup=pup.tag, born=None)
    possible = _possible(session, pup.litter_id)
    if sire.id not in possible and None not in possible:
        tags = session.exec(select(Animal.tag).where(col(Animal.id).in_(possible))).all()
        raise SireNotPossible(pup.tag, sire.tag, sorted(tags))
    pup.sire_id = sire.id
    session.add(pup)
    session.flush()
    litter = session.get(Litter, pup.litter_id)
    assert litter is not None  # noqa: S101 - the key of the pup holds it there
    refuse_against_tests(session, litter)


def refuse_against_tests(session: Session, litter: Litter) -> None:
    """Refuse a litter that its pups' tests contradict.

    Raises
    ------
    SettledOtherwise
        The litter has one sire, and tests found two.
    SireFoundByTest
        A test found a sire that the litter does not hold possible.
    """
    sire = aliased(Animal)
    found = session.exec(
        select(Animal.tag, sire.tag, sire.id)
        .join(sire, col(Animal.sire_id) == sire.id)
        .where(Animal.litter_id == litter.id)
        .order_by(col(Animal.id))
    ).all()
    by_sire = {sire_tag: pup for pup, sire_tag, _ in found}
    if len(by_sire) > 1 and not litter.pups_may_differ:
        raise SettledOtherwise(litter.code, [(pup, tag) for tag, pup in by_sire.items()])
    possible = _possible(session, litter.id)
    for pup, tag, sire_id in found:
        if sire_id not in possible and None not in possible:
            raise SireFoundByTest(litter.code, pup, tag)


def _possible(session: Session, litter_id: int | None) -> Sequence[int | None]:
    return session.exec(
        select(PossibleSire.sire_id).where(PossibleSire.litter_id == litter_id)
    ).all()


def keep_certainty(
    session: Session, litter: Litter, others: Mapping[str, str], why: str | None
) -> None:
    """Keep that the breeder is sure of the sires, although other males were with her."""
    for tag, how in others.items():
        session.add(
            Overruling(
                animal_id=litter.dam_id,
                other_id=find_animal(session, tag).id,
                act=BEAR,
                guard=OTHER_MALE,
                what=f"litter {litter.code}: {tag} was {how}",
                why=why or "the breeder is sure of the sire",
                decided_on=litter.born,
            )
        )
    session.flush()


def sires_of_pairing(session: Session, pairing: PairingRow | None) -> list[PossibleParent]:
    """The males of a pairing, equally likely; somebody unknown where there was no pairing."""
    if pairing is None:
        return [PossibleParent(None, 1.0)]
    males = session.exec(
        select(Animal)
        .join(PairingSire, col(PairingSire.sire_id) == col(Animal.id))
        .where(PairingSire.pairing_id == pairing.id)
        .order_by(col(Animal.id))
    ).all()
    return [PossibleParent(male, 1 / len(males)) for male in males]
