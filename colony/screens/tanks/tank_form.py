"""The tank form: a new tank, its system made if it is new."""

from datetime import date
from typing import TYPE_CHECKING

from colony.acts.tanks.tanks import add_tank, set_system
from colony.notation.fields.tanks import TANK_FACTS
from colony.screens.forms.fields.catalogue import form_field
from colony.screens.forms.fields.fields import YesNoField
from colony.screens.forms.form import Done, Facts, Form

if TYPE_CHECKING:
    from sqlmodel import Session


NEW_SYSTEM = YesNoField("new_system", "New system", first="no")
_BEFORE, _AFTER = TANK_FACTS[:2], TANK_FACTS[2:]
"""Whether its system is new is asked right after the system."""


class TankForm(Form):
    """Write down a tank."""

    TITLE_WORDS = "New tank"
    ACT = "tank add"
    FIELDS = (*map(form_field, _BEFORE), NEW_SYSTEM, *map(form_field, _AFTER))

    def write(self, session: "Session", facts: Facts, *, anyway: bool, today: date) -> Done:  # noqa: ARG002 - nothing to override
        """Add the tank."""
        if facts["new_system"]:
            set_system(session, name=facts["system"])
        own = {name: fact for name, fact in facts.items() if name != NEW_SYSTEM.name}
        tank = add_tank(session, **own)
        return Done(f"Tank {tank.code} is in the book.")
