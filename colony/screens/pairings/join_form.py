"""The joining form: a dam and her sires."""

from datetime import date
from typing import TYPE_CHECKING

from colony.acts.pairings.pairings import start_pairing
from colony.notation.fields.field import ON
from colony.notation.fields.health import ANYWAY_WHY
from colony.notation.fields.pairings import DAM, KEPT_WITH, PAIRING_FACTS
from colony.screens.forms.fields.catalogue import form_field
from colony.screens.forms.form import Done, Facts, Form

if TYPE_CHECKING:
    from sqlmodel import Session


class JoinForm(Form):
    """Write down that a dam is kept with one or several sires."""

    TITLE_WORDS = "Join a dam and her sires"
    ACT = "pairing start"
    FIELDS = (
        form_field(DAM, status="present"),
        form_field(KEPT_WITH, needed=True, status="present"),
        form_field(ON, label="From"),
        *map(form_field, (*PAIRING_FACTS, ANYWAY_WHY)),
    )

    def initial(self) -> dict[str, str]:
        """The dam that is looked at."""
        return {"dam": self.beginning.female}

    def write(self, session: "Session", facts: Facts, *, anyway: bool, today: date) -> Done:
        """Start the pairing."""
        done = start_pairing(session, **facts, anyway=anyway, today=today)
        return Done(
            f"{done.dam} is with {', '.join(done.sires)}; their pups' F {done.inbreeding:.4f}.",
            done.warnings,
        )
