"""The hold slip: out of breeding and sale for a time."""

from datetime import date
from typing import TYPE_CHECKING

from colony.acts.health import hold
from colony.screens.slips.blanks import Blank
from colony.screens.slips.known_blanks import TagBlank
from colony.screens.slips.measured_blanks import DayBlank
from colony.screens.slips.slip import Done, Facts, Slip

if TYPE_CHECKING:
    from sqlmodel import Session


class HoldSlip(Slip):
    """Hold an animal, for a reason."""

    TITLE_WORDS = "Health hold"
    ACT = "animal hold"
    CAUTION = "Medicines and doses are a licensed vet's business."
    BLANKS = (
        TagBlank("tag", "Animal", needed=True),
        Blank("why", "Why", needed=True),
        DayBlank("on", "From", needed=True),
    )

    def firsts(self) -> dict[str, str]:
        """The animal that is looked at."""
        return {"tag": self.beginning.tag}

    def write(self, session: "Session", facts: Facts, *, anyway: bool, today: date) -> Done:  # noqa: ARG002 - nothing to override
        """Hold it."""
        hold(session, **facts, today=today)
        return Done(f"{facts['tag']} is held: {facts['why']}.")


SLIP = HoldSlip
