"""The release form: a hold ends."""

from datetime import date
from typing import TYPE_CHECKING

from colony.acts.health.holds import release
from colony.notation.fields.field import ON, TAG_OF_ANIMAL
from colony.screens.forms.fields.catalogue import form_field
from colony.screens.forms.form import Done, Facts, Form

if TYPE_CHECKING:
    from sqlmodel import Session


class ReleaseForm(Form):
    """End the hold of an animal."""

    TITLE_WORDS = "End a hold"
    ACT = "animal release"
    FIELDS = (
        form_field(TAG_OF_ANIMAL),
        form_field(ON),
    )

    def initial(self) -> dict[str, str]:
        """The animal that is looked at."""
        return {"tag": self.beginning.tag}

    def write(self, session: "Session", facts: Facts, *, anyway: bool, today: date) -> Done:  # noqa: ARG002 - nothing to override
        """Release it."""
        release(session, **facts, today=today)
        return Done(f"{facts['tag']} is released.")
