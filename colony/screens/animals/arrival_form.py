"""The arrival slip: an animal that was not born in a litter of this book."""

from datetime import date
from typing import TYPE_CHECKING

from colony.acts.animals import AnimalFacts, add_animal
from colony.notation.words import ORIGINS, SEXES
from colony.screens.slips.blanks import Blank, WordBlank
from colony.screens.slips.known_blanks import SiresBlank, SpeciesBlank, TagBlank, TankBlank
from colony.screens.slips.measured_blanks import (
    DayBlank,
    KnownDayBlank,
    LengthBlank,
    NewTagBlank,
)
from colony.screens.slips.slip import Done, Facts, Slip

if TYPE_CHECKING:
    from sqlmodel import Session


class ArrivalSlip(Slip):
    """Write down an animal from elsewhere."""

    TITLE_WORDS = "New ray"
    ACT = "animal add"
    CAUTION = "Isolate arrivals; keeping may need a licence where you live: ask the permit office."
    BLANKS = (
        NewTagBlank("tag", "Tag", needed=True),
        SpeciesBlank("species", "Species", needed=True),
        WordBlank("sex", "Sex", needed=True, words=SEXES, empty="F, M or U"),
        WordBlank("origin", "Origin", first="bred elsewhere", words=ORIGINS),
        DayBlank("arrived", "Arrived"),
        TankBlank("tank", "Tank", empty="intake, as a rule"),
        LengthBlank("width_mm", "Disc width", empty="12.5cm or 5in, tail excluded"),
        KnownDayBlank("born", "Born", empty="2024-05 or 2024 will do"),
        Blank("name", "Name"),
        Blank("line", "Line"),
        Blank("arrived_from", "From whom"),
        TagBlank("dam", "Dam", sex="F", status=None),
        SiresBlank("sires", "Sire", status=None),
    )

    def write(self, session: "Session", facts: Facts, *, anyway: bool, today: date) -> Done:  # noqa: ARG002 - nothing to override
        """Add the animal."""
        own = {name: fact for name, fact in facts.items() if name not in {"tank", "width_mm"}}
        added = add_animal(
            session,
            tag=facts["tag"],
            facts=AnimalFacts(**own | {"sires": facts["sires"] or ()}),
            tank=facts["tank"],
            width_mm=facts["width_mm"],
            today=today,
        )
        return Done(f"{added.tag} is in the book.")


SLIP = ArrivalSlip
