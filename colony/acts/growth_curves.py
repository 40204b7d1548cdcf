"""How each pup will grow, by what the colony's own widths say."""

from collections.abc import Sequence
from dataclasses import replace
from datetime import date

from sqlmodel import Session

from colony.planning.gates import PupFacts
from colony.store.readers.growth import read_growth
from colony.store.readers.herd import read_herd
from colony.store.readers.lives import Lives


def with_curves(
    session: Session, pups: Sequence[PupFacts], lives: Lives, today: date
) -> list[PupFacts]:
    """The same pups with what the colony's widths say of how each will grow."""
    growth = read_growth(session, read_herd(session), lives, today)
    return [
        replace(pup, widths=growth.trusted[pup.tag].kept, curve=growth.colony.curves.get(pup.tag))
        if pup.tag in growth.trusted
        else pup
        for pup in pups
    ]
