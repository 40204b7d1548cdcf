"""The move form: animals into a tank, within its limits."""

from datetime import date
from typing import TYPE_CHECKING

from colony.acts.tanks.tanks import move
from colony.notation.fields.tanks import INTO, MOVE_FACTS, MOVED
from colony.screens.forms.fields.catalogue import form_field
from colony.screens.forms.form import Done, Facts, Form

if TYPE_CHECKING:
    from sqlmodel import Session


class MoveForm(Form):
    """Move animals into a tank."""

    TITLE_WORDS = "Move"
    ACT = "tank move"
    FIELDS = tuple(map(form_field, (MOVED, INTO, *MOVE_FACTS)))

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
