"""The form of a water test: the values that were read."""

from datetime import date
from typing import TYPE_CHECKING

from colony.acts.water.terms import read_terms
from colony.acts.water.tests import log_test
from colony.notation.fields.water import TEST_FACTS, TESTED_SYSTEM, VALUES
from colony.notation.readings import parse_reading
from colony.screens.forms.fields.catalogue import form_field
from colony.screens.forms.form import Done, Facts, Form

if TYPE_CHECKING:
    from sqlmodel import Session


class WaterTestForm(Form):
    """Write down a water test; it ticks the task off."""

    TITLE_WORDS = "Water test"
    ACT = "water test"
    FIELDS = (
        form_field(TESTED_SYSTEM),
        form_field(VALUES),
        *map(form_field, TEST_FACTS),
    )

    def initial(self) -> dict[str, str]:
        """The system whose work is looked at."""
        return {"system": self.beginning.initial.get("place", "")}

    def write(self, session: "Session", facts: Facts, *, anyway: bool, today: date) -> Done:  # noqa: ARG002 - nothing to override
        """Write the values down."""
        own = {name: fact for name, fact in facts.items() if name != VALUES.name}
        terms = read_terms(session)
        values = dict(parse_reading(text, terms) for text in facts[VALUES.name].split())
        tested = log_test(session, **own, values=values, today=today)
        return Done(f"{tested.system}: {len(values)} values written down.", tested.warnings)
