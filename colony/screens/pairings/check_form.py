"""The check form: what was found of a female."""

from datetime import date
from typing import TYPE_CHECKING

from colony.acts.pairings.pairings import note_finding
from colony.notation.words import FINDINGS, METHODS
from colony.screens.forms.fields.fields import FormField, WordField
from colony.screens.forms.fields.measures import DayField
from colony.screens.forms.fields.names import TagField
from colony.screens.forms.form import Done, Facts, Form

if TYPE_CHECKING:
    from sqlmodel import Session


class CheckForm(Form):
    """Write down what was found of a female; nothing seen is never "not pregnant"."""

    TITLE_WORDS = "Check a female"
    ACT = "pairing check"
    FIELDS = (
        TagField("dam", "Female", needed=True, sex="F"),
        WordField(
            "finding",
            "Found",
            needed=True,
            words=FINDINGS,
            what="finding",
            empty=", ".join(FINDINGS),
        ),
        WordField("method", "How", needed=True, first=METHODS[0], words=METHODS, what="method"),
        DayField("on", "On", needed=True),
        FormField("note", "Note"),
    )

    def initial(self) -> dict[str, str]:
        """The female that is looked at."""
        return {"dam": self.beginning.female}

    def write(self, session: "Session", facts: Facts, *, anyway: bool, today: date) -> Done:  # noqa: ARG002 - nothing to override
        """Note the finding."""
        note_finding(session, **facts, today=today)
        return Done(f"{facts['dam']}: {facts['finding']} on {facts['on']}.")
