"""The end form: sold, died or gone."""

from datetime import date
from typing import TYPE_CHECKING

from colony.acts.animals.animals import end_animal
from colony.acts.animals.search import name_animal
from colony.notation.fields.animals import END_FACTS, ENDED, HOW_ENDED
from colony.screens.forms.fields.catalogue import form_field
from colony.screens.forms.form import Done, Facts, Form

if TYPE_CHECKING:
    from sqlmodel import Session


class EndForm(Form):
    """Write down that an animal was sold, died or is gone."""

    TITLE_WORDS = "An animal leaves"
    ACT = "animal end"
    FIELDS = (
        form_field(ENDED),
        form_field(HOW_ENDED, label="How"),
        *map(form_field, END_FACTS),
    )

    def initial(self) -> dict[str, str]:
        """The animals that are marked, or the one that is looked at."""
        return {"tags": ", ".join(self.beginning.marked) or self.beginning.tag}

    def asks(self, facts: Facts) -> str:
        """Who is about to be written off, as what and since when."""
        book_session = self.app.book_session
        names = (
            book_session.read(name_animal, tag=tag, today=book_session.today)
            for tag in facts["tags"]
        )
        return f"{'; '.join(names)}: {facts['how']} {facts['on']}."

    def write(self, session: "Session", facts: Facts, *, anyway: bool, today: date) -> Done:
        """End them together, or none."""
        own = {name: fact for name, fact in facts.items() if name != ENDED.name}
        for tag in facts["tags"]:
            end_animal(session, tag=tag, **own, anyway=anyway, today=today)
        return Done(f"{', '.join(facts['tags'])}: {facts['how']} on {facts['on']}.")
