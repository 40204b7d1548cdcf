"""The birth slip: a litter of any size in a handful of keys."""

from datetime import date
from typing import TYPE_CHECKING

from colony.acts.litters import record_litter
from colony.screens.slips.blanks import Blank, CountBlank, YesNoBlank
from colony.screens.slips.known_blanks import SiresBlank, TagBlank, TankBlank
from colony.screens.slips.measured_blanks import DayBlank, PupsBlank
from colony.screens.slips.slip import Done, Facts, Slip

if TYPE_CHECKING:
    from sqlmodel import Session


class BirthSlip(Slip):
    """Write down a birth: the litter, its pups, and where they swim."""

    TITLE_WORDS = "Birth"
    ACT = "litter record"
    CAUTION = "Pups sting from birth: move them in a rigid container, not a net."
    BLANKS = (
        TagBlank("dam", "Dam", needed=True, sex="F"),
        PupsBlank("pups", "Pups", needed=True, empty="2F3M1U; 0 if none lived"),
        DayBlank("born", "Born", needed=True, what="A birth"),
        CountBlank("dead", "Stillborn", what="number of stillborn", empty="none"),
        SiresBlank("sires", "Sire", empty="those of her pairing; Bruno=0.7 Caro=0.3"),
        TankBlank("tank", "Pups in", empty="the tank she is in"),
        YesNoBlank("differ", "Several sires", empty="no: one sire, even if not known which"),
        Blank("note", "Note"),
    )

    def firsts(self) -> dict[str, str]:
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


SLIP = BirthSlip
