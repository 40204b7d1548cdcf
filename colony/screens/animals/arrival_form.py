"""The arrival form: an animal that was not born in a litter of this book."""

from collections.abc import Mapping
from datetime import date
from typing import TYPE_CHECKING, Any

from colony.acts.animals.animals import add_animal
from colony.notation.fields.animals import ANIMAL_FACTS, DECISIONS, MEASURED
from colony.notation.fields.facts import AnimalFacts
from colony.notation.fields.health import ANYWAY_WHY
from colony.screens.forms.fields.catalogue import form_field
from colony.screens.forms.form import Done, Facts, Form

if TYPE_CHECKING:
    from sqlmodel import Session


_FIRST = ("tag", "species", "sex", "origin", "arrived", "tank", "width_mm", "born")
_LATER = (*MEASURED, *DECISIONS)
"""What is not asked of an animal that has just come, unless it is among the first."""

_BY_NAME = {field.name: field for field in (*ANIMAL_FACTS, *MEASURED)}
ASKED = (
    *(_BY_NAME[name] for name in _FIRST),
    *(field for field in ANIMAL_FACTS if field.name not in _FIRST and field not in _LATER),
)
"""The fields in the order in which an arrival is looked at; the rest as the catalogue has them."""

_OTHERWISE: Mapping[str, Mapping[str, Any]] = {
    "tag": {"needed": True},
    "species": {"needed": True},
    "sex": {"needed": True},
    "origin": {"first": "bred elsewhere"},
    "arrived": {"first": "today"},
    "tank": {"empty": "intake, as a rule"},
}


_BESIDE = {"tank", "width_mm", ANYWAY_WHY.name}
"""What is said beside the animal's own facts."""


class ArrivalForm(Form):
    """Write down an animal from elsewhere."""

    TITLE_WORDS = "New ray"
    ACT = "animal add"
    FIELDS = (
        *(form_field(field, **_OTHERWISE.get(field.name, {})) for field in ASKED),
        form_field(ANYWAY_WHY),
    )

    def write(self, session: "Session", facts: Facts, *, anyway: bool, today: date) -> Done:
        """Add the animal."""
        own = {name: fact for name, fact in facts.items() if name not in _BESIDE}
        added = add_animal(
            session,
            tag=facts["tag"],
            facts=AnimalFacts(**own),
            tank=facts["tank"],
            width_mm=facts["width_mm"],
            anyway=anyway,
            why=facts["why"],
            today=today,
        )
        return Done(f"{added.tag} is in the book.")
