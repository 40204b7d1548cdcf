"""The tank slip: a new tank, its system made if it is new."""

from datetime import date
from typing import TYPE_CHECKING

from colony.acts.tanks import TankSize, add_tank, set_system
from colony.notation.words import ROLES
from colony.screens.slips.blanks import CountBlank, WordBlank, YesNoBlank
from colony.screens.slips.measured_blanks import LengthBlank, NewTagBlank, VolumeBlank
from colony.screens.slips.slip import Done, Facts, Slip

if TYPE_CHECKING:
    from sqlmodel import Session


class TankSlip(Slip):
    """Write down a tank."""

    TITLE_WORDS = "New tank"
    ACT = "tank add"
    CAUTION = "Power off before hands go in; guard every heater."
    BLANKS = (
        NewTagBlank("code", "Code", needed=True),
        NewTagBlank("system", "System", needed=True, empty="whose water it shares"),
        YesNoBlank("new_system", "New system", first="no"),
        WordBlank("role", "Role", needed=True, words=ROLES, empty=", ".join(ROLES)),
        LengthBlank("length_mm", "Length"),
        LengthBlank("width_mm", "Width"),
        LengthBlank("diameter_mm", "Diameter", empty="of a round tank, in place of both"),
        LengthBlank("water_height_mm", "Water"),
        VolumeBlank("volume_l", "Volume"),
        CountBlank("walking_order", "Walk", most=9999, empty="place in your round"),
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


SLIP = TankSlip
