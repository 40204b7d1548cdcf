"""Animals as the guards see them."""

from collections.abc import Collection, Sequence
from datetime import date

from sqlalchemy import select
from sqlmodel import Session, col

from colony.notation.words import ORIGINS
from colony.pedigree.doubt.range import kinship_range
from colony.planning.guards.judge import Guarded, GuardLimits, Kin
from colony.records import Animal, Placement
from colony.store.readers.animals.herd import Herd, read_herd
from colony.store.readers.orders.kept import read_kept
from colony.store.readers.pairings.candidates import read_candidates
from colony.store.readers.pedigree import Lineage
from colony.store.settings import read_settings

FROM_OUTSIDE = frozenset(ORIGINS) - {"born here"}
"""Origins of which nobody knows what an animal brings with it."""


def read_limits(session: Session) -> GuardLimits:
    """What the settings of the book say to the guards."""
    settings = read_settings(session)
    return GuardLimits(
        kinship=settings.kinship_limit,
        near_term_days=settings.near_term_days,
        isolation_days=settings.isolation_days,
    )


def read_guarded(
    session: Session, ids: Collection[int], today: date, herd: Herd | None = None
) -> dict[int, Guarded]:
    """Read some animals with all that guards ask about them, by animal id."""
    known = herd or read_herd(session)
    candidates = read_candidates(session, known, today, of=frozenset(ids))
    arrivals, kept = _arrivals(session, ids), read_kept(session, today)
    return {
        animal_id: Guarded(
            candidate,
            reserved_for=kept[animal_id].buyer if animal_id in kept else None,
            kept_for=kept[animal_id].for_order if animal_id in kept else None,
            held_back=known.by_id(animal_id).held_back,
            arrived=arrivals.get(animal_id),
        )
        for animal_id, candidate in candidates.items()
    }


def read_kin(lineage: Lineage, dam: int, sires: Sequence[int]) -> list[Kin]:
    """Kinship of a dam with each of some sires, and at its greatest over doubtful sires."""
    expected = lineage.kinship([dam], list(sires))[0].tolist()
    mothers = lineage.places([dam] * len(sires))
    greatest = kinship_range(lineage.pedigree, mothers, lineage.places(sires)).greatest.tolist()
    return [
        Kin(value, max(most, value), tuple(unknown_parents(lineage, (dam, sire))))
        for sire, value, most in zip(sires, expected, greatest, strict=True)
    ]


def unknown_parents(lineage: Lineage, ids: Sequence[int]) -> list[str]:
    """Tags of those of whom a parent is not on record."""
    rows = [lineage.herd.by_id(animal_id) for animal_id in ids]
    return [
        row.tag
        for row in rows
        if lineage.parents.dam_id(row) is None
        or any(sire is None for sire, _ in lineage.parents.sires(row) or ((None, 1.0),))
    ]


def _arrivals(session: Session, ids: Collection[int]) -> dict[int, date]:
    """The day that each came from outside, of those that were in no tank of the house yet."""
    housed = select(col(Placement.animal_id)).where(col(Placement.animal_id).in_(ids))
    query = select(col(Animal.id), col(Animal.arrived)).where(
        col(Animal.id).in_(ids),
        col(Animal.origin).in_(FROM_OUTSIDE),
        col(Animal.arrived).is_not(None),
        col(Animal.id).not_in(housed),
    )
    return {
        animal_id: arrived
        for animal_id, arrived in session.execute(query)
        if animal_id is not None and arrived is not None
    }
