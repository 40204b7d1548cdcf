"""Refusals about isolation."""

from datetime import date

from colony.refusals.base import Refusal, listed


class LeavesIsolationEarly(Refusal):
    """Animals would leave isolation before its clock has run out, without a reason on record."""

    def __init__(self, tags: list[str], until: date) -> None:
        super().__init__(
            f"{listed(tags, 'and')} would leave isolation before {until}: nothing leaves early "
            "without a reason on record; repeat with --anyway --why REASON if it must be."
        )
