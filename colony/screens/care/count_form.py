"""The counting form: how many animals were seen in a tank."""

from datetime import date
from typing import TYPE_CHECKING

from colony.acts.care.headcount import count_heads
from colony.notation.fields.care import COUNT_FACTS, COUNTED
from colony.notation.fields.field import ON
from colony.screens.forms.fields.catalogue import form_field
from colony.screens.forms.form import Done, Facts, Form

if TYPE_CHECKING:
    from sqlmodel import Session


class CountForm(Form):
    """Write down a headcount; it ticks the task off."""

    TITLE_WORDS = "Headcount"
    ACT = "round count"
    FIELDS = tuple(map(form_field, (*COUNT_FACTS, COUNTED, ON)))

    def initial(self) -> dict[str, str]:
        """The tank whose work is looked at."""
        return {"tank": self.beginning.initial.get("place", "")}

    def write(self, session: "Session", facts: Facts, *, anyway: bool, today: date) -> Done:  # noqa: ARG002 - nothing to override
        """Write the number down."""
        heads = count_heads(session, **facts, today=today)
        there = len(heads.in_the_book)
        return Done(f"{heads.tank}: {heads.counted} counted, {there} in the book.", heads.warnings)
