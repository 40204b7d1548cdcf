"""The birth form: a litter of any size in a handful of keys."""

from datetime import date
from typing import TYPE_CHECKING

from colony.acts.litters.record import record_litter
from colony.screens.forms.fields.fields import CountField, FormField, YesNoField
from colony.screens.forms.fields.measures import DayField, PupsField
from colony.screens.forms.fields.names import SiresField, TagField, TankField
from colony.screens.forms.form import Done, Facts, Form

if TYPE_CHECKING:
    from sqlmodel import Session


class BirthForm(Form):
    """Write down a birth: the litter, its pups, and where they swim."""

    TITLE_WORDS = "Birth"
    ACT = "litter record"
    CAUTION = "Pups sting from birth: move them in a rigid container, not a net."
    FIELDS = (
        TagField("dam", "Dam", needed=True, sex="F"),
        PupsField("pups", "Pups", needed=True, empty="2F3M1U; 0 if none lived"),
        DayField("born", "Born", needed=True, what="A birth"),
        CountField("dead", "Stillborn", what="number of stillborn", empty="none"),
        SiresField("sires", "Sire", empty="those of her pairing; Bruno=0.7 Caro=0.3"),
        TankField("tank", "Pups in", empty="the tank she is in"),
        YesNoField("differ", "Several sires", empty="no: one sire, even if not known which"),
        FormField("note", "Note"),
    )

    def initial(self) -> dict[str, str]:
        """The dam that is looked at."""
        return {"dam": self.beginning.female}

    def write(self, session: "Session", facts: Facts, *, anyway: bool, today: date) -> Done:
        """Record the litter."""
        done = record_litter(
            session,
            dam=facts["dam"],
            sires=facts["sires"] or (),
            born=facts["born"],
            pups=facts["pups"],
            dead=facts["dead"] or 0,
            tank=facts["tank"],
            pups_may_differ=bool(facts["differ"]),
            note=facts["note"],
            anyway=anyway,
            today=today,
        )
        young = f"{len(done.pups)} pups" if len(done.pups) != 1 else "1 pup"
        where = f" in {done.tank}" if done.tank else ""
        sires = " or ".join(done.sires) or "unknown"
        sentence = f"Litter {done.litter} of {done.dam} by {sires}: {young}{where}, F {done.inbreeding:.4f}."
        return Done(sentence, done.warnings)
