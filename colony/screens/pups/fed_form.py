"""The feeding form: a food, and whether it was taken."""

from datetime import date
from typing import TYPE_CHECKING

from colony.acts.pups.measure import feed
from colony.notation.fields.field import ON, TAG_OF_ANIMAL
from colony.notation.fields.pups import FOOD, TOOK
from colony.screens.forms.fields.catalogue import form_field
from colony.screens.forms.form import Done, Facts, Form

if TYPE_CHECKING:
    from sqlmodel import Session


class FedForm(Form):
    """Write down a food that was offered; the form stays for the next animal."""

    TITLE_WORDS = "Fed"
    ACT = "pup feed"
    AGAIN = True
    FIELDS = (
        form_field(TAG_OF_ANIMAL),
        form_field(FOOD),
        form_field(TOOK),
        form_field(ON),
    )

    def initial(self) -> dict[str, str]:
        """The animal that is looked at."""
        return {"tag": self.beginning.tag}

    def write(self, session: "Session", facts: Facts, *, anyway: bool, today: date) -> Done:  # noqa: ARG002 - nothing to override
        """Note the feeding."""
        feed(session, **facts, today=today)
        return Done(f"{facts['tag']} {'took' if facts['took'] else 'refused'} {facts['food']}.")

    def go_on(self, done: Done) -> None:
        """Keep the food for the next animal."""
        self.past(done.in_words)
        self.rows[0].fill("")
        self.set_focus(self.rows[0].input)
