"""The parting form: a dam leaves her sires."""

from datetime import date
from typing import TYPE_CHECKING

from colony.acts.pairings.pairings import end_pairing
from colony.screens.forms.fields.measures import DayField
from colony.screens.forms.fields.names import TagField
from colony.screens.forms.form import Done, Facts, Form

if TYPE_CHECKING:
    from sqlmodel import Session


class PartForm(Form):
    """Write down that a dam was separated."""

    TITLE_WORDS = "Part a dam from her sires"
    ACT = "pairing end"
    FIELDS = (
        TagField("dam", "Dam", needed=True, sex="F"),
        DayField("on", "On", needed=True),
    )

    def initial(self) -> dict[str, str]:
        """The dam that is looked at."""
        return {"dam": self.beginning.female}

    def write(self, session: "Session", facts: Facts, *, anyway: bool, today: date) -> Done:  # noqa: ARG002 - nothing to override
        """End the pairing."""
        end_pairing(session, **facts, today=today)
        return Done(f"{facts['dam']} was separated on {facts['on']}.")
