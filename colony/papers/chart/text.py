"""What stands under each animal of a chart."""

from dataclasses import dataclass

import numpy as np

from colony.papers.chart.members import Members
from colony.pedigree.doubt.range import inbreeding_range
from colony.pedigree.graph.completeness import generation_equivalents
from colony.pedigree.graph.graph import Pedigree
from colony.pedigree.kinship.inbreeding import inbreeding


@dataclass(frozen=True)
class AnimalText:
    """The words at one animal: its tag, F, and how many generations that F rests on."""

    tag: str
    inbreeding: tuple[str, ...]
    known: str

    @property
    def lines(self) -> tuple[str, ...]:
        """From top to bottom; a founder has no F to speak of."""
        return (self.tag, *self.inbreeding, self.known) if self.known else (self.tag, "founder")


def chart_text(pedigree: Pedigree, members: Members) -> dict[int, AnimalText]:
    """Words for each member: F with its range where a sire is in doubt, and how much is known."""
    some = np.array(sorted(members.generation), dtype=np.int64)
    expected = inbreeding(pedigree, of=some)[some]
    span = inbreeding_range(pedigree, some)
    known = generation_equivalents(pedigree)[some]
    return {
        int(animal): AnimalText(
            tag=pedigree.tags[animal],
            inbreeding=_inbreeding(float(f), float(least), float(greatest)),
            known=f"{complete:.1f} gen" if complete else "",
        )
        for animal, f, least, greatest, complete in zip(
            some, expected, span.least, span.greatest, known, strict=True
        )
    }


def _inbreeding(expected: float, least: float, greatest: float) -> tuple[str, ...]:
    if greatest - least < 5e-4:  # noqa: PLR2004 - would print as the same figure
        return (f"F {expected:.4f}",)
    return f"F {expected:.4f}", f"{least:.3f}\N{EN DASH}{greatest:.3f}"
