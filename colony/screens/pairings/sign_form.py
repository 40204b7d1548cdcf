"""The sign slip: what was seen of a mating."""

from datetime import date
from typing import TYPE_CHECKING

from colony.acts.pairings import note_sign
from colony.notation.words import MATING_SIGNS
from colony.screens.slips.blanks import Blank, WordBlank
from colony.screens.slips.known_blanks import TagBlank
from colony.screens.slips.measured_blanks import DayBlank
from colony.screens.slips.slip import Done, Facts, Slip

if TYPE_CHECKING:
    from sqlmodel import Session


class SignSlip(Slip):
    """Write down a mating sign of a paired dam."""

    TITLE_WORDS = "Mating sign"
    ACT = "pairing sign"
    BLANKS = (
        TagBlank("dam", "Dam", needed=True, sex="F"),
        WordBlank(
            "kind",
            "Seen",
            needed=True,
            words=MATING_SIGNS,
            what="mating sign",
            empty=", ".join(MATING_SIGNS),
        ),
        DayBlank("on", "On", needed=True),
        TagBlank("sire", "Sire", sex="M", empty="if it was seen which"),
        Blank("note", "Note"),
    )

    def firsts(self) -> dict[str, str]:
        """The dam that is looked at."""
        return {"dam": self.beginning.female}

    def write(self, session: "Session", facts: Facts, *, anyway: bool, today: date) -> Done:  # noqa: ARG002 - nothing to override
        """Note the sign."""
        note_sign(session, **facts, today=today)
        return Done(f"{facts['dam']}: {facts['kind']} on {facts['on']}.")


SLIP = SignSlip
