"""Refusals about species and their numbers."""

from colony.refusals.base import Refusal, WrongUse, listed
from colony.refusals.notation import shown


class SpeciesTaken(Refusal):
    """The book has that species already."""

    def __init__(self, name: str) -> None:
        super().__init__(
            f"Species {shown(name)} is in the book already: set its numbers with colony species set."
        )


class NotATraitNumber(WrongUse):
    """A life-history number is not above nothing, or no number."""

    def __init__(self, trait: str, number: float) -> None:
        super().__init__(f"{trait} cannot be {number:g}: write a number above 0, in days or mm.")


class NoSuchTrait(WrongUse):
    """There is no life-history number of that name."""

    def __init__(self, trait: str, known: list[str]) -> None:
        super().__init__(f"There is no number {shown(trait)} of a species: use {listed(known)}.")
