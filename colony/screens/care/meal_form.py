"""The meal form: what a tank was offered, and what it took."""

from datetime import date
from typing import TYPE_CHECKING

from colony.acts.care.feeding import Seen, feed_tank
from colony.notation.fields.field import NOTE, ON
from colony.notation.fields.foods import GIVEN, OFFERED, TAKEN_OF_IT
from colony.notation.fields.tanks import FED_TANK
from colony.screens.forms.fields.catalogue import form_field
from colony.screens.forms.form import Done, Facts, Form

if TYPE_CHECKING:
    from sqlmodel import Session


class MealForm(Form):
    """Write down a feeding of a tank; it ticks the task off."""

    TITLE_WORDS = "A tank is fed"
    ACT = "food give"
    FIELDS = tuple(map(form_field, (FED_TANK, GIVEN, OFFERED, TAKEN_OF_IT, ON, NOTE)))

    def initial(self) -> dict[str, str]:
        """The tank whose work is looked at."""
        return {"tank": self.beginning.initial.get("place", "")}

    def write(self, session: "Session", facts: Facts, *, anyway: bool, today: date) -> Done:
        """Write the meal down."""
        fed = feed_tank(session, **facts, seen=Seen(), anyway=anyway, today=today)
        return Done(f"{fed.tank}: {fed.food}, took {fed.taken}.", fed.warnings)
