"""The check form: what was found of a female."""

from datetime import date
from typing import TYPE_CHECKING

from colony.acts.pairings.pairings import note_finding
from colony.notation.fields.field import NOTE, ON
from colony.notation.fields.pairings import DAM, FINDING, METHOD
from colony.screens.forms.fields.catalogue import form_field
from colony.screens.forms.form import Done, Facts, Form

if TYPE_CHECKING:
    from sqlmodel import Session


class CheckForm(Form):
    """Write down what was found of a female; nothing seen is never "not pregnant"."""

    TITLE_WORDS = "Check a female"
    ACT = "pairing check"
    FIELDS = (
        form_field(DAM, label="Female", status="present"),
        form_field(FINDING),
        form_field(METHOD, needed=True),
        form_field(ON),
        form_field(NOTE),
    )

    def initial(self) -> dict[str, str]:
        """The female that is looked at."""
        return {"dam": self.beginning.female}

    def write(self, session: "Session", facts: Facts, *, anyway: bool, today: date) -> Done:  # noqa: ARG002 - nothing to override
        """Note the finding."""
        note_finding(session, **facts, today=today)
        return Done(f"{facts['dam']}: {facts['finding']} on {facts['on']}.")
