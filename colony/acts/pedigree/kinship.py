"""Ask the pedigree: how inbred, how related."""

from collections.abc import Sequence
from dataclasses import dataclass

from sqlmodel import Session

from colony.store.lookup import find_animal
from colony.store.readers.pedigree import AnimalKin, read_lineage


@dataclass(frozen=True)
class Kinship:
    """Kinship of two animals: F of the pups the two would have."""

    tags: tuple[str, str]
    kinship: float


def inbreeding_of(session: Session, *, tags: Sequence[str] = ()) -> list[AnimalKin]:
    """F of some animals, or of everybody present; `NoSuchTag` for an unknown one."""
    lineage = read_lineage(session)
    if tags:
        asked = [find_animal(session, tag).id or 0 for tag in tags]
    else:
        asked = [row.id for row in lineage.herd.rows if row.status == "present"]
    return lineage.range_of(asked)


def kinship_of(session: Session, *, one: str, other: str) -> Kinship:
    """Kinship of two animals; `NoSuchTag` for an unknown one."""
    first, second = find_animal(session, one), find_animal(session, other)
    matrix = read_lineage(session).kinship([first.id or 0], [second.id or 0])
    return Kinship((first.tag, second.tag), float(matrix[0, 0]))


@dataclass(frozen=True)
class KinshipGrid:
    """Kinship of some animals with each other, row by row; of one with itself, (1 + F) / 2."""

    tags: tuple[str, ...]
    rows: tuple[tuple[float, ...], ...]


def kinship_grid(session: Session, *, tags: Sequence[str]) -> KinshipGrid:
    """Kinship of each of some animals with each; `NoSuchTag` for an unknown one."""
    animals = [find_animal(session, tag) for tag in tags]
    ids = [animal.id or 0 for animal in animals]
    matrix = read_lineage(session).kinship(ids, ids)
    rows = tuple(tuple(map(float, row)) for row in matrix.tolist())
    return KinshipGrid(tuple(animal.tag for animal in animals), rows)
