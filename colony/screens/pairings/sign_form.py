"""The sign form: what was seen of a mating."""

from datetime import date
from typing import TYPE_CHECKING

from colony.acts.pairings.pairings import note_sign
from colony.notation.fields.field import NOTE, ON
from colony.notation.fields.pairings import DAM, KIND, SIRE
from colony.screens.forms.fields.catalogue import form_field
from colony.screens.forms.form import Done, Facts, Form

if TYPE_CHECKING:
    from sqlmodel import Session


class SignForm(Form):
    """Write down a mating sign of a paired dam."""

    TITLE_WORDS = "Mating sign"
    ACT = "pairing sign"
    FIELDS = (
        form_field(DAM, status="present"),
        form_field(KIND),
        form_field(ON),
        form_field(SIRE, status="present"),
        form_field(NOTE),
    )

    def initial(self) -> dict[str, str]:
        """The dam that is looked at."""
        return {"dam": self.beginning.female}

    def write(self, session: "Session", facts: Facts, *, anyway: bool, today: date) -> Done:  # noqa: ARG002 - nothing to override
        """Note the sign."""
        note_sign(session, **facts, today=today)
        return Done(f"{facts['dam']}: {facts['kind']} on {facts['on']}.")
