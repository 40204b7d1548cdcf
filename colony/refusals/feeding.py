"""Refusals about foods and feeding: an unknown food or batch, an empty tank."""

from datetime import date

from colony.refusals.base import Refusal, listed
from colony.refusals.notation import shown


class NoSuchFood(Refusal):
    """The house has no food of that name."""

    def __init__(self, name: str, known: list[str]) -> None:
        hint = f"use {listed(known)}, or add it" if known else "add it first"
        super().__init__(f"There is no food {shown(name)}: {hint}: colony food add NAME.")


class NoSuchBatch(Refusal):
    """A food has no open batch of that code."""

    def __init__(self, food: str, code: str, known: list[str]) -> None:
        hint = f"open are {listed(known, 'and')}" if known else "none is open"
        super().__init__(
            f"{food} has no open batch {shown(code)}: {hint}; add one: colony food batch {food} CODE."
        )


class BatchTaken(Refusal):
    """A food has a batch of that code already."""

    def __init__(self, food: str, code: str) -> None:
        super().__init__(
            f"{food} has a batch {shown(code)} already: write the code as on the package."
        )


class BatchNotThereYet(Refusal):
    """A batch is finished before it came."""

    def __init__(self, code: str, on: date, received: date) -> None:
        super().__init__(f"Batch {shown(code)} came on {received}: it cannot be finished on {on}.")


class NobodyToFeed(Refusal):
    """No animal is in a tank on that day."""

    def __init__(self, tank: str, on: date) -> None:
        super().__init__(f"Nobody is in {tank} on {on}: check the tank or the day.")


class NotInThisTank(Refusal):
    """An animal is named at the feeding of a tank that it is not in."""

    def __init__(self, tag: str, tank: str) -> None:
        super().__init__(f"{tag} is not in {tank}: check the tag, or move it first.")
