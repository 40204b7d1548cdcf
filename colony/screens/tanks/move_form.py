"""The move slip: animals into a tank, within its limits."""

from datetime import date
from typing import TYPE_CHECKING

from colony.acts.tanks import move
from colony.screens.slips.blanks import Blank
from colony.screens.slips.known_blanks import TagsBlank, TankBlank
from colony.screens.slips.measured_blanks import DayBlank
from colony.screens.slips.slip import Done, Facts, Slip

if TYPE_CHECKING:
    from sqlmodel import Session


class MoveSlip(Slip):
    """Move animals into a tank."""

    TITLE_WORDS = "Move"
    ACT = "tank move"
    CAUTION = "Rigid container, not a net; two people for an adult. The sting is venomous."
    BLANKS = (
        TagsBlank("tags", "Animals", needed=True, empty="tags, with spaces between"),
        TankBlank("tank", "Into", needed=True, empty="tank"),
        DayBlank("on", "On", needed=True),
        Blank("why", "Why", empty="asked where isolation ends early"),
    )

    def firsts(self) -> dict[str, str]:
        """The animals that are marked, or the one that is looked at."""
        return {"tags": ", ".join(self.beginning.marked) or self.beginning.tag}

    def write(self, session: "Session", facts: Facts, *, anyway: bool, today: date) -> Done:
        """Move them together, or none."""
        done = move(
            session,
            tags=facts["tags"],
            tank=facts["tank"],
            on=facts["on"],
            anyway=anyway,
            why=facts["why"],
            today=today,
        )
        return Done(f"{', '.join(done.moved)} moved to {done.tank}.", done.warnings)


SLIP = MoveSlip
