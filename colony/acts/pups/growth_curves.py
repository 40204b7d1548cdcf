"""How each pup will grow, by what the colony's own widths say."""

from collections.abc import Sequence
from dataclasses import replace
from datetime import date

from colony.planning.pups.gates import PupFacts
from colony.planning.pups.readiness import Readiness, readiness
from colony.store.readers.animals.lives import Lives
from colony.store.readers.pups.growth import Growth


def with_curves(pups: Sequence[PupFacts], growth: Growth) -> list[PupFacts]:
    """The same pups with what the colony's widths say of how each will grow."""
    return [replace(pup, curve=growth.colony.curves.get(pup.tag)) for pup in pups]


def tried_with_curves(
    pups: Sequence[PupFacts], growth: Growth, lives: Lives, today: date
) -> list[Readiness]:
    """Every pup at the gates of its species, its widths forecast by the colony's."""
    return [
        readiness(pup, lives.of(pup.species or None).ready_rules(), today)
        for pup in with_curves(pups, growth)
    ]
