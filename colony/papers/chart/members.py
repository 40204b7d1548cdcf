"""Who stands on a pedigree chart: an animal, its ancestors and its descendants, each once."""

from collections import defaultdict
from collections.abc import Callable, Mapping
from dataclasses import dataclass

import numpy as np

from colony.pedigree.doubt.doubts import UNKNOWN
from colony.pedigree.graph.graph import Pedigree
from colony.pedigree.kinship.kinship import kinship


@dataclass(frozen=True)
class Scope:
    """What a chart is to show.

    Attributes
    ----------
    subject
        Position of the animal that it is about.
    up, down
        Generations of ancestors and of descendants.
    dead
        Positions of the animals that are dead.
    """

    subject: int
    up: int = 3
    down: int = 0
    dead: frozenset[int] = frozenset()


@dataclass(frozen=True)
class Family:
    """Parents and those of their pups that stand on the chart.

    Attributes
    ----------
    dam
        Position of the dam, None if nobody knows her.
    sires
        Positions of the sires that are known or possible, with their shares.
    doubtful
        Whether the sire is in doubt.
    related
        The sires that are kin to the dam.
    """

    dam: int | None
    sires: tuple[tuple[int, float], ...]
    pups: tuple[int, ...]
    doubtful: bool
    related: frozenset[int]

    @property
    def parents(self) -> tuple[int, ...]:
        """All of them, sires first, as they stand on a chart from left to right."""
        dam = () if self.dam is None else (self.dam,)
        return (*(sire for sire, _ in self.sires), *dam)


@dataclass(frozen=True)
class Members:
    """The animals of a chart, the subject, and their families.

    Attributes
    ----------
    generation
        Of each member: 0 for the subject, 1 for its parents, -1 for its pups; an ancestor in
        several generations stands in the farthest, so that parents stand above their pups.
    families
        Of everybody on the chart whose parents stand on it.
    descendants
        Those that descend from the subject.
    """

    subject: int
    generation: dict[int, int]
    families: tuple[Family, ...]
    descendants: frozenset[int]


def chart_members(pedigree: Pedigree, scope: Scope) -> Members:
    """Gather the ancestors and descendants of an animal, with the partners of the latter."""
    subject = scope.subject
    parents = _Parents(pedigree)
    above = _within(subject, scope.up, parents.of)
    below = _within(subject, scope.down, parents.pups_of)
    pups = [animal for animal, distance in above.items() if distance < scope.up]
    pups += [animal for animal, distance in below.items() if distance > 0]
    families = parents.families(pups)
    members = {subject, *above, *below}.union(*(family.parents for family in families))
    generation = _generations(subject, members, below, families)
    return Members(subject, generation, families, frozenset(below) - {subject})


class _Parents:
    """Parents and pups of every animal, possible ones among them."""

    def __init__(self, pedigree: Pedigree) -> None:
        self.pedigree = pedigree
        self.doubt: dict[int, tuple[tuple[int, float], ...]] = {
            pup: doubt.possible for doubt in pedigree.doubts for pup in doubt.pups
        }
        self.pups: defaultdict[int, list[int]] = defaultdict(list)
        for pup in range(len(pedigree)):
            for parent in self.of(pup):
                self.pups[parent].append(pup)

    def sires(self, pup: int) -> tuple[tuple[int, float], ...]:
        known = int(self.pedigree.sire[pup])
        possible = self.doubt.get(pup, ()) if known == UNKNOWN else ((known, 1.0),)
        return tuple((sire, share) for sire, share in possible if sire != UNKNOWN)

    def dam(self, pup: int) -> int | None:
        return None if self.pedigree.dam[pup] == UNKNOWN else int(self.pedigree.dam[pup])

    def of(self, pup: int) -> list[int]:
        dam = self.dam(pup)
        return [sire for sire, _ in self.sires(pup)] + ([] if dam is None else [dam])

    def pups_of(self, parent: int) -> list[int]:
        return self.pups[parent]

    def families(self, pups: list[int]) -> tuple[Family, ...]:
        together: defaultdict[tuple[int | None, tuple[tuple[int, float], ...], bool], list[int]]
        together = defaultdict(list)
        for pup in pups:
            if self.of(pup):
                together[self.dam(pup), self.sires(pup), pup in self.doubt].append(pup)
        return tuple(
            Family(dam, sires, tuple(some), doubtful, self._related(dam, sires))
            for (dam, sires, doubtful), some in together.items()
        )

    def _related(self, dam: int | None, sires: tuple[tuple[int, float], ...]) -> frozenset[int]:
        if dam is None or not sires:
            return frozenset()
        positions = np.array([sire for sire, _ in sires])
        found = kinship(self.pedigree, np.array([dam]), positions)[0]
        return frozenset(positions[found > 0].tolist())


def _within(start: int, most: int, step: Callable[[int], list[int]]) -> dict[int, int]:
    """Those within some steps of an animal, each with its shortest distance."""
    found, front = {start: 0}, [start]
    for distance in range(1, most + 1):
        front = [animal for here in front for animal in step(here) if animal not in found]
        found |= dict.fromkeys(front, distance)
    return found


def _generations(
    subject: int, members: set[int], below: Mapping[int, int], families: tuple[Family, ...]
) -> dict[int, int]:
    """Lower descendants below all their parents, then raise all others above their pups."""
    generation = {animal: -below.get(animal, len(members)) for animal in members} | {subject: 0}
    moved = True
    while moved:
        moved = False
        for family in families:
            for parent in family.parents:
                for pup in family.pups:
                    if parent in below and generation[pup] >= generation[parent]:
                        generation[pup], moved = generation[parent] - 1, True
                    elif generation[parent] <= generation[pup]:
                        generation[parent], moved = generation[pup] + 1, True
    return generation
