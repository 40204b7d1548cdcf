"""The pedigree of the book as the arrays of the pedigree room, and questions asked of it."""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from math import isclose

import numpy as np
from sqlmodel import Session

from colony.pedigree.doubt.range import inbreeding_range, kinship_range
from colony.pedigree.graph.completeness import generation_equivalents
from colony.pedigree.graph.graph import Doubt, FloatArray, IntArray, Pedigree
from colony.pedigree.kinship.inbreeding import inbreeding
from colony.pedigree.kinship.kinship import kinship, kinship_and_mean
from colony.records import Litter
from colony.refusals.pedigree import SharesAreOff
from colony.store.readers.animals.herd import Herd, read_herd
from colony.store.readers.litters.parents import Parents, Sires, read_parents

UNKNOWN = -1


@dataclass(frozen=True)
class AnimalKin:
    """F of one animal: expected, least and greatest, and how complete its pedigree is."""

    tag: str
    inbreeding: float
    low: float
    high: float
    exact: bool
    completeness: float


@dataclass(frozen=True)
class LitterKin:
    """F of the pups of a litter, with its sires as written."""

    sires: list[str]
    inbreeding: float
    low: float
    high: float
    completeness: float


@dataclass(frozen=True)
class Lineage:
    """Everybody in the book, and who descends from whom."""

    herd: Herd
    parents: Parents

    @cached_property
    def pedigree(self) -> Pedigree:
        """The arrays, in the order of the herd; refuses a pedigree that cannot be."""
        return _pedigree(self.herd, self.parents)

    def places(self, animal_ids: Sequence[int]) -> IntArray:
        """Where some animals stand in the pedigree."""
        return np.array([self.herd.position[animal_id] for animal_id in animal_ids], dtype=np.int64)

    def inbreeding(self, animal_ids: Sequence[int]) -> list[float]:
        """Expected F of some animals, in their order."""
        places = self.places(animal_ids)
        found: list[float] = inbreeding(self.pedigree, places)[places].tolist()
        return found

    def kinship(self, rows: Sequence[int], columns: Sequence[int]) -> FloatArray:
        """Expected kinship of some animals with others, shape (k, m)."""
        return kinship(self.pedigree, self.places(rows), self.places(columns))

    def kinship_and_mean(self, of: Sequence[int], asking: int) -> tuple[FloatArray, FloatArray]:
        """Kinship of some animals with the one asking, and their mean kinship with the living."""
        living = self.places([row.id for row in self.herd.rows if row.status == "present"])
        place = self.herd.position[asking]
        return kinship_and_mean(self.pedigree, self.places(of), place, living)

    def range_of(self, animal_ids: Sequence[int]) -> list[AnimalKin]:
        """F of some animals over what their doubtful sires may be, and how complete it is."""
        places = self.places(animal_ids)
        known = generation_equivalents(self.pedigree)[places]
        spread = inbreeding_range(self.pedigree, places)
        return [
            AnimalKin(self.herd.rows[at].tag, *kin)
            for at, *kin in zip(
                places.tolist(),
                self.inbreeding(animal_ids),
                spread.least.tolist(),
                spread.greatest.tolist(),
                spread.exact.tolist(),
                known.tolist(),
                strict=True,
            )
        ]

    def pups_of(self, animal_id: int) -> list[str]:
        """Tags of the pups that an animal bore, or may have sired."""
        return [
            row.tag
            for row in self.herd.rows
            if self.parents.dam_id(row) == animal_id
            or any(sire == animal_id for sire, _ in self.parents.sires(row))
        ]


def read_lineage(session: Session) -> Lineage:
    """Read everybody and all parentage."""
    herd = read_herd(session)
    return Lineage(herd, read_parents(session, herd))


def refuse_impossible_pedigree(session: Session) -> Lineage:
    """Refuse what an act made of the pedigree: its own ancestor, a male dam, a female sire."""
    lineage = read_lineage(session)
    lineage.pedigree  # noqa: B018 - building it is the check
    return lineage


def litter_kin(lineage: Lineage, litter: Litter) -> LitterKin:
    """F of the pups of a litter: expected, and over its possible sires."""
    assert litter.id is not None  # noqa: S101 - it is in the book
    sires = lineage.parents.sires_of_litter(litter.id)
    place = lineage.herd.position
    ways = [(place[sire], share) for sire, share in sires if sire is not None]
    men = np.array([sire for sire, _ in ways], dtype=np.int64)
    shares = np.array([share for _, share in ways])
    dam = np.full(1, place[litter.dam_id])
    kinships = kinship(lineage.pedigree, dam, men)[0]
    spread = kinship_range(lineage.pedigree, np.repeat(dam, len(men)), men)
    unrelated = [0.0] * (len(sires) > len(ways) or not sires)
    known = 1 + generation_equivalents(lineage.pedigree)
    return LitterKin(
        sires=lineage.parents.written(sires),
        inbreeding=float(shares @ kinships),
        low=min([*spread.least.tolist(), *unrelated]),
        high=max([*spread.greatest.tolist(), *unrelated]),
        completeness=float(known[dam[0]] + shares @ known[men]) / 2,
    )


def _pedigree(herd: Herd, parents: Parents) -> Pedigree:
    dam = np.full(len(herd.rows), UNKNOWN, dtype=np.int64)
    sire = dam.copy()
    in_doubt: dict[tuple[str, int], tuple[list[int], Sires]] = {}
    for at, row in enumerate(herd.rows):
        mother = parents.dam_id(row)
        if mother is not None:
            dam[at] = herd.position[mother]
        sires = parents.sires(row)
        if len(sires) == 1:
            sire[at] = UNKNOWN if sires[0][0] is None else herd.position[sires[0][0]]
        elif sires:
            key = ("animal", row.id) if row.litter_id is None else ("litter", row.litter_id)
            in_doubt.setdefault(key, ([], sires))[0].append(at)
    return Pedigree(
        tags=tuple(row.tag for row in herd.rows),
        dam=dam,
        sire=sire,
        sexes="".join(row.sex for row in herd.rows),
        doubts=tuple(
            _doubt(
                herd,
                pups,
                sires,
                differ=kind == "litter" and parents.litters[key].pups_may_differ,
            )
            for (kind, key), (pups, sires) in in_doubt.items()
        ),
    )


def _doubt(herd: Herd, pups: Sequence[int], sires: Sires, *, differ: bool) -> Doubt:
    total = sum(share for _, share in sires)
    if not isclose(total, 1, abs_tol=1e-6):
        raise SharesAreOff(herd.rows[pups[0]].tag, total)
    return Doubt(
        pups=tuple(pups),
        sires=tuple(UNKNOWN if sire is None else herd.position[sire] for sire, _ in sires),
        shares=tuple(share for _, share in sires),
        pups_may_differ=differ,
    )
