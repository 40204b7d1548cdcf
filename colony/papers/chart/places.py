"""Where everybody stands on a pedigree chart: columns and rows, still without measure."""

from collections.abc import Iterator
from dataclasses import dataclass

from colony.papers.chart.members import Family, Members

GAP = 1.0
"""Columns between two neighbours, from centre to centre."""


@dataclass(frozen=True)
class Places:
    """Column and row of each animal; row 0 is the oldest generation."""

    column: dict[int, float]
    row: dict[int, int]

    @property
    def columns(self) -> float:
        """How wide the chart is."""
        return max(self.column.values()) + GAP / 2

    @property
    def rows(self) -> int:
        """How many generations it has."""
        return max(self.row.values()) + 1

    def neighbours(self, row: int) -> list[int]:
        """The animals of a row from left to right."""
        return sorted(
            (animal for animal in self.row if self.row[animal] == row), key=self.column.__getitem__
        )

    def are_side_by_side(self, animal: int, other: int) -> bool:
        """Whether two stand in the same row with nobody between."""
        beside = self.neighbours(self.row[animal])
        return (
            self.row[animal] == self.row[other]
            and abs(beside.index(animal) - beside.index(other)) == 1
        )


def chart_places(members: Members) -> Places:
    """Place the subject in the middle, ancestors above as a tree and descendants below."""
    oldest = max(members.generation.values())
    row = {animal: oldest - generation for animal, generation in members.generation.items()}
    column = _Above(members).columns()
    for animal, place in _Below(members, set(column)).columns(members.subject).items():
        column.setdefault(animal, place + column[members.subject])
    return Places(_spread(column, row), row)


class _Above:
    """Ancestors: each over its pup, parents left and right; drawn once where branches meet."""

    def __init__(self, members: Members) -> None:
        self.subject = members.subject
        self.family_of = {pup: family for family in members.families for pup in family.pups}
        self.generation = members.generation
        self.column: dict[int, float] = {}
        self.free = 0.0

    def columns(self) -> dict[int, float]:
        self._place(self.subject)
        return self.column

    def _place(self, animal: int) -> None:
        family = self.family_of.get(animal)
        parents = family.parents if family else ()
        self.column[animal] = 0.0
        new = [parent for parent in parents if parent not in self.column]
        for parent in new:
            if parent not in self.column:
                self._place(parent)
        if new:
            self.column[animal] = sum(self.column[parent] for parent in new) / len(new)
        else:
            self.column[animal], self.free = self.free, self.free + GAP


class _Below:
    """Descendants: each over its pups, beside the partner of each family."""

    def __init__(self, members: Members, placed: set[int]) -> None:
        self.members, self.placed = members, set(placed)
        self.drawn: set[int] = set()

    def columns(self, animal: int) -> dict[int, float]:
        """Columns of an animal's descendants and partners, it itself at 0."""
        block = self._block(animal)
        return {other: place - block[animal] for other, place in block.items()}

    def _families(self, animal: int) -> Iterator[Family]:
        for at, family in enumerate(self.members.families):
            below = self.members.generation[animal] > self.members.generation[family.pups[0]]
            if below and animal in family.parents and at not in self.drawn:
                self.drawn.add(at)
                yield family

    def _block(self, animal: int) -> dict[int, float]:
        """Lay out an animal with all below it, from column 0 on."""
        self.placed.add(animal)
        block: dict[int, float] = {}
        ends = 0.0
        beside: list[tuple[float, list[int]]] = []
        for family in self._families(animal):
            there = self.placed | self.members.descendants
            partners = [mate for mate in family.parents if mate not in there]
            self.placed.update(partners)
            pups, width = self._side_by_side(family.pups)
            wanted = max(width, GAP * (len(partners) + (not beside)))
            shift = ends + (wanted - width) / 2
            block |= {other: place + shift for other, place in pups.items()}
            beside.append((ends + wanted / 2, partners))
            ends += wanted
        return block | self._with_partners(animal, beside)

    def _side_by_side(self, some: tuple[int, ...]) -> tuple[dict[int, float], float]:
        block: dict[int, float] = {}
        ends = 0.0
        for animal in some:
            if animal not in self.placed:
                below = self._block(animal)
                left = min(below.values())
                block |= {other: place - left + ends for other, place in below.items()}
                ends += max(below.values()) - left + GAP
        return block, ends

    def _with_partners(
        self, animal: int, beside: list[tuple[float, list[int]]]
    ) -> dict[int, float]:
        """The animal at the left of its first family, its partners at the right of each."""
        if not beside:
            return {animal: 0.0}
        first, partners = beside[0]
        middle = first - GAP / 2
        places = {animal: middle - GAP / 2 * len(partners)}
        last = places[animal]
        for centre, mates in beside:
            for at, mate in enumerate(mates):
                last = max(last + GAP, centre - GAP / 2 + GAP * (at - (len(mates) - 1) / 2))
                places[mate] = last
        return places


def _spread(column: dict[int, float], row: dict[int, int]) -> dict[int, float]:
    """Push neighbours apart that stand too near, and begin at half a column."""
    spread: dict[int, float] = {}
    for at in set(row.values()):
        last = float("-inf")
        for animal in sorted(
            (animal for animal in row if row[animal] == at), key=column.__getitem__
        ):
            spread[animal] = last = max(column[animal], last + GAP)
    left = min(spread.values())
    return {animal: place - left + GAP / 2 for animal, place in spread.items()}
