"""The skipping form: work of the round that is let go today, and why."""

from datetime import date
from typing import TYPE_CHECKING

from colony.acts.care.round import skip
from colony.notation.fields.care import PLACE, SKIPPED_WHY, TASK
from colony.screens.forms.fields.catalogue import form_field
from colony.screens.forms.fields.fields import FormField
from colony.screens.forms.form import Done, Facts, Form

if TYPE_CHECKING:
    from sqlmodel import Session


class SkipForm(Form):
    """Let a task go for a day; it is due again tomorrow."""

    TITLE_WORDS = "Skip work of the round"
    ACT = "round skip"
    FIELDS = (
        # As free text: `all` and a beginning are read where it is written.
        FormField(TASK.name, "Task", needed=True),
        *map(form_field, (PLACE, SKIPPED_WHY)),
    )

    def write(self, session: "Session", facts: Facts, *, anyway: bool, today: date) -> Done:  # noqa: ARG002 - nothing to override
        """Write down that it was let go."""
        places = [facts["place"]]
        skip(session, task=facts["task"], places=places, why=facts["why"], on=today, today=today)
        return Done(f"{facts['task']} at {facts['place']} is skipped: {facts['why']}.")
