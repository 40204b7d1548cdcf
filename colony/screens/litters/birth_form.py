"""The birth form: a litter of any size in a handful of keys."""

from datetime import date
from typing import TYPE_CHECKING

from colony.acts.litters.record import record_litter
from colony.notation.fields.field import NOTE
from colony.notation.fields.health import ANYWAY_WHY
from colony.notation.fields.litters import DEAD, MARKS, SIRES
from colony.screens.forms.fields.catalogue import form_field
from colony.screens.forms.fields.measures import DayField, PupsField
from colony.screens.forms.fields.names import TagField, TankField
from colony.screens.forms.form import Done, Facts, Form

if TYPE_CHECKING:
    from sqlmodel import Session


class BirthForm(Form):
    """Write down a birth: the litter, its pups, and where they swim."""

    TITLE_WORDS = "Birth"
    ACT = "litter record"
    FIELDS = (
        TagField("dam", "Dam", needed=True, sex="F"),
        PupsField("pups", "Pups", needed=True, empty="2F3M1U; 0 if none lived"),
        DayField("born", "Born", needed=True, what="A birth"),
        form_field(DEAD),
        form_field(SIRES),
        TankField("tank", "Pups in", empty="the tank she is in"),
        *map(form_field, (*MARKS, NOTE, ANYWAY_WHY)),
    )

    def initial(self) -> dict[str, str]:
        """The dam that is looked at."""
        return {"dam": self.beginning.female}

    def write(self, session: "Session", facts: Facts, *, anyway: bool, today: date) -> Done:
        """Record the litter."""
        done = record_litter(session, **facts, anyway=anyway, ask=True, today=today)
        young = f"{len(done.pups)} pups" if len(done.pups) != 1 else "1 pup"
        where = f" in {done.tank}" if done.tank else ""
        sires = " or ".join(done.sire_shares)
        sentence = f"Litter {done.litter} of {done.dam} by {sires}: {young}{where}, F {done.inbreeding:.4f}."
        return Done(sentence, done.warnings)
