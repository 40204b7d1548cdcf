"""The tank form: a new tank, its system made if it is new."""

from datetime import date
from typing import TYPE_CHECKING

from colony.acts.tanks.tanks import TankSize, add_tank, set_system
from colony.notation.words import ROLES
from colony.screens.forms.fields.fields import CountField, WordField, YesNoField
from colony.screens.forms.fields.measures import LengthField, NewTagField, VolumeField
from colony.screens.forms.form import Done, Facts, Form

if TYPE_CHECKING:
    from sqlmodel import Session


class TankForm(Form):
    """Write down a tank."""

    TITLE_WORDS = "New tank"
    ACT = "tank add"
    CAUTION = "Power off before hands go in; guard every heater."
    FIELDS = (
        NewTagField("code", "Code", needed=True),
        NewTagField("system", "System", needed=True, empty="whose water it shares"),
        YesNoField("new_system", "New system", first="no"),
        WordField("role", "Role", needed=True, words=ROLES, empty=", ".join(ROLES)),
        LengthField("length_mm", "Length"),
        LengthField("width_mm", "Width"),
        LengthField("diameter_mm", "Diameter", empty="of a round tank, in place of both"),
        LengthField("water_height_mm", "Water"),
        VolumeField("volume_l", "Volume"),
        CountField("walking_order", "Walk", most=9999, empty="place in your round"),
    )

    def write(self, session: "Session", facts: Facts, *, anyway: bool, today: date) -> Done:  # noqa: ARG002 - nothing to override
        """Add the tank."""
        if facts["new_system"]:
            set_system(session, name=facts["system"])
        sizes = ("length_mm", "width_mm", "diameter_mm", "water_height_mm", "volume_l")
        tank = add_tank(
            session,
            code=facts["code"],
            system=facts["system"],
            role=facts["role"],
            size=TankSize(**{name: facts[name] for name in sizes}),
            walking_order=facts["walking_order"],
        )
        return Done(f"Tank {tank.code} is in the book.")
