"""The sires of a litter: who was there, who is written down, and what a test settles."""

from collections.abc import Sequence

from sqlmodel import Session, col, select

from colony.acts.parentage import PossibleParent, find_parent
from colony.notation.shares import SireShare
from colony.records import Animal, Litter, PairingSire, PossibleSire
from colony.refusals.litters import OneTestedSire, SireNotPossible
from colony.store.readers.dams import PairingRow


def write_sires(session: Session, litter: Litter, sires: Sequence[PossibleParent]) -> None:
    """Write the possible sires of a litter, in place of those written before."""
    for row in session.exec(select(PossibleSire).where(PossibleSire.litter_id == litter.id)):
        session.delete(row)
    session.flush()
    for one in sires:
        sire_id = one.animal.id if one.animal else None
        session.add(PossibleSire(litter_id=litter.id, sire_id=sire_id, share=one.share))
    session.flush()


def settle_sire(session: Session, pup: Animal, sires: Sequence[SireShare]) -> None:
    """Write down that a test found the sire of a pup.

    Raises
    ------
    OneTestedSire
        A test names one sire.
    SireNotPossible
        The litter does not hold that sire possible.
    """
    if len(sires) != 1 or sires[0].tag is None:
        raise OneTestedSire(pup.tag)
    sire = find_parent(session, sires[0].tag, "sire", pup=pup.tag, born=None)
    possible = session.exec(
        select(PossibleSire.sire_id).where(PossibleSire.litter_id == pup.litter_id)
    ).all()
    if sire.id not in possible and None not in possible:
        tags = session.exec(select(Animal.tag).where(col(Animal.id).in_(possible))).all()
        raise SireNotPossible(pup.tag, sire.tag, sorted(tags))
    pup.sire_id = sire.id
    session.add(pup)
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
