"""The look slip: what was found of a female."""

from datetime import date
from typing import TYPE_CHECKING

from colony.acts.pairings import note_finding
from colony.notation.words import FINDINGS, METHODS
from colony.screens.slips.blanks import Blank, WordBlank
from colony.screens.slips.known_blanks import TagBlank
from colony.screens.slips.measured_blanks import DayBlank
from colony.screens.slips.slip import Done, Facts, Slip

if TYPE_CHECKING:
    from sqlmodel import Session


class LookSlip(Slip):
    """Write down what was found of a female; nothing seen is never "not pregnant"."""

    TITLE_WORDS = "Look at a female"
    ACT = "pairing check"
    BLANKS = (
        TagBlank("dam", "Female", needed=True, sex="F"),
        WordBlank(
            "finding",
            "Found",
            needed=True,
            words=FINDINGS,
            what="finding",
            empty=", ".join(FINDINGS),
        ),
        WordBlank("method", "How", needed=True, first=METHODS[0], words=METHODS, what="method"),
        DayBlank("on", "On", needed=True),
        Blank("note", "Note"),
    )

    def firsts(self) -> dict[str, str]:
        """The female that is looked at."""
        return {"dam": self.beginning.female}

    def write(self, session: "Session", facts: Facts, *, anyway: bool, today: date) -> Done:  # noqa: ARG002 - nothing to override
        """Note the finding."""
        note_finding(session, **facts, today=today)
        return Done(f"{facts['dam']}: {facts['finding']} on {facts['on']}.")


SLIP = LookSlip
