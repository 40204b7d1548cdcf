"""Refusals about pairings."""

from datetime import date

from colony.refusals.base import Refusal


class PairedAlready(Refusal):
    """A dam is in a pairing and cannot be in two."""

    def __init__(self, dam: str, since: date) -> None:
        super().__init__(
            f"{dam} is paired since {since} already: end that first: colony pairing end {dam}."
        )


class NoPairing(Refusal):
    """A dam is in no pairing, or was in none that day."""

    def __init__(self, dam: str, on: date | None = None) -> None:
        when = f"on {on}" if on else "now"
        super().__init__(
            f"{dam} is in no pairing {when}: start one: colony pairing start {dam} SIRE."
        )


class EndsBeforeStart(Refusal):
    """A pairing ends before it began."""

    def __init__(self, dam: str, on: date, started: date) -> None:
        super().__init__(f"The pairing of {dam} began on {started}: it cannot end on {on}.")


class NotOfThisPairing(Refusal):
    """A sire seen mating is not kept with the dam."""

    def __init__(self, sire: str, dam: str) -> None:
        super().__init__(
            f"{sire} is not in the pairing of {dam}: check the tag, or start a pairing with both."
        )
