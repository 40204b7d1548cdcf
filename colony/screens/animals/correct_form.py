"""The form of corrections: a fact of an animal was wrong, or changed."""

from datetime import date
from typing import TYPE_CHECKING, Any

from colony.acts.animals.animals import edit_animal
from colony.notation.fields.animals import ANIMAL_FACTS, DECISIONS
from colony.notation.fields.facts import AnimalFacts
from colony.screens.forms.fields.catalogue import form_field
from colony.screens.forms.fields.names import TagField
from colony.screens.forms.form import Done, Facts, Form

if TYPE_CHECKING:
    from sqlmodel import Session


SELDOM = tuple(field for field in ANIMAL_FACTS if field not in DECISIONS)
"""What changes only where it was wrong; what is decided anew again and again stands before it."""

_OTHERWISE: dict[str, dict[str, Any]] = {
    "tag": {"label": "New tag", "needed": False},
    "sires": {"empty": "a test result settles it"},
}


class CorrectForm(Form):
    """Correct facts of an animal; a field left empty changes nothing."""

    TITLE_WORDS = "Correct facts (an empty field changes nothing)"
    ACT = "animal edit"
    FIELDS = (
        TagField("who", "Animal", needed=True, status=None),
        *(form_field(field, **_OTHERWISE.get(field.name, {})) for field in (*DECISIONS, *SELDOM)),
    )

    def initial(self) -> dict[str, str]:
        """The animal that is looked at."""
        return {"who": self.beginning.tag}

    def says_something(self) -> bool:
        """Something has to change before Enter writes."""
        return any(row.text for row in self.rows[1:])

    def write(self, session: "Session", facts: Facts, *, anyway: bool, today: date) -> Done:  # noqa: ARG002 - nothing to override
        """Correct the facts that were given."""
        own = AnimalFacts(**{name: fact for name, fact in facts.items() if name != "who"})
        corrected = edit_animal(session, tag=facts["who"], facts=own, today=today)
        return Done(f"{corrected.tag} is corrected: {', '.join(own).replace('_', ' ')}.")
