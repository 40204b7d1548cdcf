"""The parting form: a dam leaves her sires."""

from datetime import date
from typing import TYPE_CHECKING

from colony.acts.pairings.pairings import end_pairing
from colony.notation.fields.field import ON
from colony.notation.fields.pairings import DAM
from colony.screens.forms.fields.catalogue import form_field
from colony.screens.forms.form import Done, Facts, Form

if TYPE_CHECKING:
    from sqlmodel import Session


class PartForm(Form):
    """Write down that a dam was separated."""

    TITLE_WORDS = "Part a dam from her sires"
    ACT = "pairing end"
    FIELDS = (form_field(DAM, status="present"), form_field(ON))

    def initial(self) -> dict[str, str]:
        """The dam that is looked at."""
        return {"dam": self.beginning.female}

    def write(self, session: "Session", facts: Facts, *, anyway: bool, today: date) -> Done:  # noqa: ARG002 - nothing to override
        """End the pairing."""
        end_pairing(session, **facts, today=today)
        return Done(f"{facts['dam']} was separated on {facts['on']}.")
