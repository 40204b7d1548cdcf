"""The release slip: a hold ends."""

from datetime import date
from typing import TYPE_CHECKING

from colony.acts.health import release
from colony.screens.slips.known_blanks import TagBlank
from colony.screens.slips.measured_blanks import DayBlank
from colony.screens.slips.slip import Done, Facts, Slip

if TYPE_CHECKING:
    from sqlmodel import Session


class ReleaseSlip(Slip):
    """End the hold of an animal."""

    TITLE_WORDS = "End a hold"
    ACT = "animal release"
    BLANKS = (
        TagBlank("tag", "Animal", needed=True),
        DayBlank("on", "On", needed=True),
    )

    def firsts(self) -> dict[str, str]:
        """The animal that is looked at."""
        return {"tag": self.beginning.tag}

    def write(self, session: "Session", facts: Facts, *, anyway: bool, today: date) -> Done:  # noqa: ARG002 - nothing to override
        """Release it."""
        release(session, **facts, today=today)
        return Done(f"{facts['tag']} is released.")


SLIP = ReleaseSlip
