"""What the book says already, as far as a file of animals can agree with it or not."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date

from colony.notation.days import Day
from colony.notation.shares import SireShare

ANCESTOR_NOTE = "Known only as a parent named in an imported file."
"""The note of an animal that has no row of its own yet."""


@dataclass(frozen=True)
class KnownAnimal:
    """One animal of the book."""

    tag: str
    sex: str = "U"
    born: Day | None = None
    status: str = "present"
    ended_on: date | None = None
    dam: str | None = None
    sires: tuple[SireShare, ...] = ()
    in_litter: bool = False
    tank: str | None = None
    transponder: str | None = None
    only_named: bool = False
    """It was written down only because a pup names it: its own row may still say all."""


@dataclass(frozen=True)
class KnownBook:
    """The animals of the book by folded tag, and its tanks by folded code."""

    animals: Mapping[str, KnownAnimal] = field(default_factory=dict)
    tanks: Mapping[str, str] = field(default_factory=dict)

    def animal(self, tag: str) -> KnownAnimal | None:
        """The animal of a tag, however it is written."""
        return self.animals.get(tag.casefold())
