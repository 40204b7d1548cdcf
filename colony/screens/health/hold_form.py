"""The hold form: out of breeding and sale for a time."""

from datetime import date
from typing import TYPE_CHECKING

from colony.acts.health.holds import hold
from colony.notation.fields.field import ON, TAG_OF_ANIMAL
from colony.notation.fields.health import HELD_WHY
from colony.screens.forms.fields.catalogue import form_field
from colony.screens.forms.form import Done, Facts, Form

if TYPE_CHECKING:
    from sqlmodel import Session


class HoldForm(Form):
    """Hold an animal, for a reason."""

    TITLE_WORDS = "Health hold"
    ACT = "animal hold"
    FIELDS = (
        form_field(TAG_OF_ANIMAL),
        form_field(HELD_WHY),
        form_field(ON, label="From"),
    )

    def initial(self) -> dict[str, str]:
        """The animal that is looked at."""
        return {"tag": self.beginning.tag}

    def write(self, session: "Session", facts: Facts, *, anyway: bool, today: date) -> Done:  # noqa: ARG002 - nothing to override
        """Hold it."""
        hold(session, **facts, today=today)
        return Done(f"{facts['tag']} is held: {facts['why']}.")
