"""The near family of an animal: parents and theirs, for a drawing."""

from dataclasses import dataclass

from sqlmodel import Session

from colony.store.lookup import find_animal
from colony.store.readers.animals.herd import HerdRow
from colony.store.readers.litters.parents import Parents
from colony.store.readers.pedigree import read_lineage

GENERATIONS = 3
"""Parents, grandparents and great-grandparents: what a screen has room for."""


@dataclass(frozen=True)
class FamilyMember:
    """One animal of a family tree; `share` is below 1 where the sire is in doubt."""

    tag: str
    sex: str
    share: float = 1.0
    dam: "FamilyMember | None" = None
    sires: tuple["FamilyMember", ...] = ()


def family_of(session: Session, *, tag: str, generations: int = GENERATIONS) -> FamilyMember:
    """The ancestors of an animal as far back as asked; `NoSuchTag` for an unknown one."""
    animal = find_animal(session, tag)
    parents = read_lineage(session).parents
    assert animal.id is not None  # noqa: S101 - it was found in the book
    return _kin(parents, parents.herd.by_id(animal.id), 1.0, generations)


def _kin(parents: Parents, row: HerdRow, share: float, generations: int) -> FamilyMember:
    if generations == 0:
        return FamilyMember(row.tag, row.sex, share)
    dam = parents.dam_id(row)
    sires = [(sire, part) for sire, part in parents.sires(row) if sire is not None]
    return FamilyMember(
        row.tag,
        row.sex,
        share,
        dam=_kin(parents, parents.herd.by_id(dam), 1.0, generations - 1) if dam else None,
        sires=tuple(
            _kin(parents, parents.herd.by_id(sire), part, generations - 1)
            for sire, part in sorted(sires, key=lambda pair: -pair[1])
        ),
    )
