"""The feeding slip: a food, and whether it was taken."""

from datetime import date
from typing import TYPE_CHECKING

from colony.acts.pups import feed
from colony.screens.slips.blanks import Blank, YesNoBlank
from colony.screens.slips.known_blanks import TagBlank
from colony.screens.slips.measured_blanks import DayBlank
from colony.screens.slips.slip import Done, Facts, Slip

if TYPE_CHECKING:
    from sqlmodel import Session


class FedSlip(Slip):
    """Write down a food that was offered; the slip stays for the next animal."""

    TITLE_WORDS = "Fed"
    ACT = "pup feed"
    AGAIN = True
    BLANKS = (
        TagBlank("tag", "Animal", needed=True),
        Blank("food", "Food", needed=True),
        YesNoBlank("took", "Took it", needed=True, first="yes"),
        DayBlank("on", "On", needed=True),
    )

    def firsts(self) -> dict[str, str]:
        """The animal that is looked at."""
        return {"tag": self.beginning.tag}

    def write(self, session: "Session", facts: Facts, *, anyway: bool, today: date) -> Done:  # noqa: ARG002 - nothing to override
        """Note the feeding."""
        feed(session, **facts, today=today)
        return Done(f"{facts['tag']} {'took' if facts['took'] else 'refused'} {facts['food']}.")

    def go_on(self, done: Done) -> None:
        """Keep the food for the next animal."""
        self.past(done.told)
        self.rows[0].fill("")
        self.set_focus(self.rows[0].input)


SLIP = FedSlip
