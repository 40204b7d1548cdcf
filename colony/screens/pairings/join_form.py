"""The joining slip: a dam and her sires."""

from datetime import date
from typing import TYPE_CHECKING

from colony.acts.pairings import start_pairing
from colony.screens.slips.blanks import Blank
from colony.screens.slips.known_blanks import TagBlank, TagsBlank, TankBlank
from colony.screens.slips.measured_blanks import DayBlank
from colony.screens.slips.slip import Done, Facts, Slip

if TYPE_CHECKING:
    from sqlmodel import Session


class JoinSlip(Slip):
    """Write down that a dam is kept with one or several sires."""

    TITLE_WORDS = "Join a dam and her sires"
    ACT = "pairing start"
    CAUTION = "Males bite: watch the first hours, and have a tank free to part them."
    BLANKS = (
        TagBlank("dam", "Dam", needed=True, sex="F"),
        TagsBlank("sires", "Sires", needed=True, sex="M"),
        DayBlank("on", "From", needed=True),
        TankBlank("tank", "Tank"),
        Blank("purpose", "Purpose"),
    )

    def firsts(self) -> dict[str, str]:
        """The dam that is looked at."""
        return {"dam": self.beginning.female}

    def write(self, session: "Session", facts: Facts, *, anyway: bool, today: date) -> Done:  # noqa: ARG002 - nothing to override
        """Start the pairing."""
        done = start_pairing(session, **facts, today=today)
        return Done(
            f"{done.dam} is with {', '.join(done.sires)}; their pups' F {done.inbreeding:.4f}."
        )


SLIP = JoinSlip
