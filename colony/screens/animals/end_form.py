"""The end form: sold, died or gone."""

from datetime import date
from typing import TYPE_CHECKING

from colony.acts.animals.animals import end_animal
from colony.acts.animals.search import name_animal
from colony.notation.fields.animals import END_FACTS, HOW_ENDED
from colony.notation.fields.field import TAG_OF_ANIMAL
from colony.screens.forms.fields.catalogue import form_field
from colony.screens.forms.form import Done, Facts, Form

if TYPE_CHECKING:
    from sqlmodel import Session


class EndForm(Form):
    """Write down that an animal was sold, died or is gone."""

    TITLE_WORDS = "An animal leaves"
    ACT = "animal end"
    CAUTION = "A dead ray's sting is venomous still; cover cuts before hands go in."
    FIELDS = (
        form_field(TAG_OF_ANIMAL),
        form_field(HOW_ENDED, label="How"),
        *map(form_field, END_FACTS),
    )

    def initial(self) -> dict[str, str]:
        """The animal that is looked at."""
        return {"tag": self.beginning.tag}

    def asks(self, facts: Facts) -> str:
        """Who is about to be written off, as what and since when."""
        book_session = self.app.book_session
        who = book_session.read(name_animal, tag=facts["tag"], today=book_session.today)
        return f"{who}: {facts['how']} {facts['on']}."

    def write(self, session: "Session", facts: Facts, *, anyway: bool, today: date) -> Done:
        """End the animal."""
        end_animal(session, **facts, anyway=anyway, today=today)
        return Done(f"{facts['tag']}: {facts['how']} on {facts['on']}.")
