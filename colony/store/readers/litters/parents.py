"""Who may be the parents of whom, with the doubt that the book records."""

from collections import defaultdict
from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any

from sqlalchemy import bindparam, select
from sqlmodel import Session, col

from colony.notation.shares import SireShare, show_sires
from colony.records import Animal, Litter, PossibleSire
from colony.store.readers.animals.herd import Herd, HerdRow, read_some

Sires = tuple[tuple[int | None, float], ...]
"""Possible sires by animal id (None: somebody unknown), each with its share; they sum to 1."""


@dataclass(frozen=True)
class LitterParents:
    """The parents of one litter, and who its pups are."""

    dam_id: int
    sires: Sires
    pups_may_differ: bool


@dataclass(frozen=True)
class Parents:
    """The parents of every animal, from its litter or from its own row."""

    herd: Herd
    litters: Mapping[int, LitterParents]
    sires_of_animal: Mapping[int, Sires]
    settled_litters: Mapping[int, int]

    def dam_id(self, row: HerdRow) -> int | None:
        """The dam of an animal, if she is known."""
        return row.dam_id if row.litter_id is None else self.litters[row.litter_id].dam_id

    def sires(self, row: HerdRow) -> Sires:
        """The possible sires of an animal; none at all where nothing is known."""
        if row.sire_id is not None:
            return ((row.sire_id, 1.0),)
        if row.litter_id is None:
            return self.sires_of_animal.get(row.id, ())
        return self.sires_of_litter(row.litter_id)

    def sires_of_litter(self, litter_id: int) -> Sires:
        """The possible sires of a litter.

        A sire settled by a test on one pup settles its litter too, unless pups may differ.
        """
        if litter_id in self.settled_litters:
            return ((self.settled_litters[litter_id], 1.0),)
        return self.litters[litter_id].sires

    def tag(self, animal_id: int | None) -> str | None:
        """The tag of an animal, if there is one."""
        return None if animal_id is None else self.herd.by_id(animal_id).tag

    def written(self, sires: Sires) -> list[str]:
        """Possible sires as they are typed, likeliest first: ``["Bruno=0.7", "Caro=0.3"]``."""
        if len(sires) == 1:  # nearly everybody
            only = self.tag(sires[0][0])
            return [only] if only else []
        known = [SireShare(self.tag(sire), share) for sire, share in sires]
        if all(sire.tag is None for sire in known):
            return []
        return show_sires(sorted(known, key=lambda sire: -sire.share))


def read_parents(session: Session, herd: Herd) -> Parents:
    """Read all parentage of the book."""
    session.flush()
    found = session.connection()
    return _parents_of(herd, found.execute(_SHARES), found.execute(_LITTERS))


def read_parents_of(session: Session, ids: Collection[int]) -> Parents:
    """Read the parentage of a few animals; the herd is these and their parents.

    Of their litter-mates it has those whose sire was tested: he may be the sire of all.
    """
    herd = read_some(session, ids)
    litters = {row.litter_id for row in herd.rows if row.litter_id is not None}
    if litters:
        tested = session.connection().execute(_TESTED, {"litters": list(litters)}).scalars()
        herd = herd.with_rows(read_some(session, set(tested) - herd.position.keys()).rows)
    shares = session.connection().execute(
        _SHARES_OF, {"litters": list(litters), "animals": list(ids)}
    )
    of_litters = session.connection().execute(_LITTERS_OF, {"litters": list(litters)})
    parents = _parents_of(herd, shares, of_litters)
    named = {parents.dam_id(row) for row in herd.rows}
    named |= {sire for row in herd.rows for sire, _ in parents.sires(row)}
    others = read_some(session, named - herd.position.keys() - {None})
    return replace(parents, herd=herd.with_rows(others.rows))


_SHARES = select(
    col(PossibleSire.litter_id),
    col(PossibleSire.animal_id),
    col(PossibleSire.sire_id),
    col(PossibleSire.share),
).order_by(col(PossibleSire.id))
_LITTERS = select(col(Litter.id), col(Litter.dam_id), col(Litter.pups_may_differ))

# Made once: to put a query together takes longer than a page of answers.
_SOME_LITTERS: Any = bindparam("litters", expanding=True)
_TESTED = select(col(Animal.id)).where(
    col(Animal.litter_id).in_(_SOME_LITTERS), col(Animal.sire_id).is_not(None)
)
_SHARES_OF = _SHARES.where(
    col(PossibleSire.litter_id).in_(_SOME_LITTERS)
    | col(PossibleSire.animal_id).in_(bindparam("animals", expanding=True))
)
_LITTERS_OF = _LITTERS.where(col(Litter.id).in_(_SOME_LITTERS))


def _parents_of(herd: Herd, shares: Iterable[Any], of_litters: Iterable[Any]) -> Parents:
    of_litter: dict[int, list[tuple[int | None, float]]] = defaultdict(list)
    of_animal: dict[int, list[tuple[int | None, float]]] = defaultdict(list)
    for litter_id, animal_id, sire_id, share in shares:
        (of_animal[animal_id] if litter_id is None else of_litter[litter_id]).append(
            (sire_id, share)
        )
    litters = {
        litter_id: LitterParents(dam_id, tuple(of_litter.get(litter_id, ())), differ)
        for litter_id, dam_id, differ in of_litters
    }
    settled = _settled(herd.rows, litters)
    return Parents(
        herd, litters, {animal_id: tuple(sires) for animal_id, sires in of_animal.items()}, settled
    )


def _settled(rows: Sequence[HerdRow], litters: Mapping[int, LitterParents]) -> dict[int, int]:
    return {
        row.litter_id: row.sire_id
        for row in rows
        if row.litter_id is not None
        and row.sire_id is not None
        and not litters[row.litter_id].pups_may_differ
    }
