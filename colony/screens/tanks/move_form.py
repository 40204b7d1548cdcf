"""The move form: animals into a tank, within its limits."""

from datetime import date
from typing import TYPE_CHECKING

from colony.acts.tanks.tanks import move
from colony.screens.forms.fields.fields import FormField
from colony.screens.forms.fields.measures import DayField
from colony.screens.forms.fields.names import TagsField, TankField
from colony.screens.forms.form import Done, Facts, Form

if TYPE_CHECKING:
    from sqlmodel import Session


class MoveForm(Form):
    """Move animals into a tank."""

    TITLE_WORDS = "Move"
    ACT = "tank move"
    CAUTION = "Rigid container, not a net; two people for an adult. The sting is venomous."
    FIELDS = (
        TagsField("tags", "Animals", needed=True, empty="tags, with spaces between"),
        TankField("tank", "Into", needed=True, empty="tank"),
        DayField("on", "On", needed=True),
        FormField("why", "Why", empty="asked where isolation ends early"),
    )

    def initial(self) -> dict[str, str]:
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
