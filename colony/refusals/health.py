"""Refusals about health holds."""

from datetime import date

from colony.refusals.base import Refusal


class HeldAlready(Refusal):
    """An animal is held and cannot be held twice."""

    def __init__(self, tag: str, since: date, why: str) -> None:
        super().__init__(
            f"{tag} is held since {since} already ({why}): release it first: colony animal release {tag}."
        )


class NotHeld(Refusal):
    """An animal that is not held is released."""

    def __init__(self, tag: str, on: date) -> None:
        super().__init__(f"{tag} is not held on {on}: there is nothing to release.")
