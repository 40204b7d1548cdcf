"""The sign form: what was seen of a mating."""

from datetime import date
from typing import TYPE_CHECKING

from colony.acts.pairings.pairings import note_sign
from colony.notation.words import MATING_SIGNS
from colony.screens.forms.fields.fields import FormField, WordField
from colony.screens.forms.fields.measures import DayField
from colony.screens.forms.fields.names import TagField
from colony.screens.forms.form import Done, Facts, Form

if TYPE_CHECKING:
    from sqlmodel import Session


class SignForm(Form):
    """Write down a mating sign of a paired dam."""

    TITLE_WORDS = "Mating sign"
    ACT = "pairing sign"
    FIELDS = (
        TagField("dam", "Dam", needed=True, sex="F"),
        WordField(
            "kind",
            "Seen",
            needed=True,
            words=MATING_SIGNS,
            what="mating sign",
            empty=", ".join(MATING_SIGNS),
        ),
        DayField("on", "On", needed=True),
        TagField("sire", "Sire", sex="M", empty="if it was seen which"),
        FormField("note", "Note"),
    )

    def initial(self) -> dict[str, str]:
        """The dam that is looked at."""
        return {"dam": self.beginning.female}

    def write(self, session: "Session", facts: Facts, *, anyway: bool, today: date) -> Done:  # noqa: ARG002 - nothing to override
        """Note the sign."""
        note_sign(session, **facts, today=today)
        return Done(f"{facts['dam']}: {facts['kind']} on {facts['on']}.")
