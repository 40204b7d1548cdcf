"""The parting slip: a dam leaves her sires."""

from datetime import date
from typing import TYPE_CHECKING

from colony.acts.pairings import end_pairing
from colony.screens.slips.known_blanks import TagBlank
from colony.screens.slips.measured_blanks import DayBlank
from colony.screens.slips.slip import Done, Facts, Slip

if TYPE_CHECKING:
    from sqlmodel import Session


class PartSlip(Slip):
    """Write down that a dam was separated."""

    TITLE_WORDS = "Part a dam from her sires"
    ACT = "pairing end"
    BLANKS = (
        TagBlank("dam", "Dam", needed=True, sex="F"),
        DayBlank("on", "On", needed=True),
    )

    def firsts(self) -> dict[str, str]:
        """The dam that is looked at."""
        return {"dam": self.beginning.female}

    def write(self, session: "Session", facts: Facts, *, anyway: bool, today: date) -> Done:  # noqa: ARG002 - nothing to override
        """End the pairing."""
        end_pairing(session, **facts, today=today)
        return Done(f"{facts['dam']} was separated on {facts['on']}.")


SLIP = PartSlip
