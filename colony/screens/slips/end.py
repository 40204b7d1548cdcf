"""The end slip: sold, died or gone."""

from datetime import date
from typing import TYPE_CHECKING

from colony.acts.animals import end_animal
from colony.acts.search import name_animal
from colony.notation.words import ENDS
from colony.screens.slips.blanks import Blank, WordBlank
from colony.screens.slips.known_blanks import TagBlank
from colony.screens.slips.measured_blanks import DayBlank
from colony.screens.slips.slip import Done, Facts, Slip

if TYPE_CHECKING:
    from sqlmodel import Session


class EndSlip(Slip):
    """Write down that an animal was sold, died or is gone."""

    TITLE_WORDS = "An animal leaves"
    ACT = "animal end"
    CAUTION = "A dead ray's sting is venomous still; cover cuts before hands go in."
    BLANKS = (
        TagBlank("tag", "Animal", needed=True),
        WordBlank("how", "How", needed=True, words=ENDS, what="end", empty=", ".join(ENDS)),
        DayBlank("on", "On", needed=True),
        Blank("why", "Why", empty="cause, or buyer"),
    )

    def firsts(self) -> dict[str, str]:
        """The animal that is looked at."""
        return {"tag": self.beginning.tag}

    def asks(self, facts: Facts) -> str:
        """Who is about to be written off, as what and since when."""
        desk = self.app.desk
        who = desk.read(name_animal, tag=facts["tag"], today=desk.today)
        return f"{who}: {facts['how']} {facts['on']}."

    def write(self, session: "Session", facts: Facts, *, anyway: bool, today: date) -> Done:  # noqa: ARG002 - nothing to override
        """End the animal."""
        end_animal(session, **facts, today=today)
        return Done(f"{facts['tag']}: {facts['how']} on {facts['on']}.")


SLIP = EndSlip
