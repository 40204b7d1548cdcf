"""The arrival form: an animal that was not born in a litter of this book."""

from datetime import date
from typing import TYPE_CHECKING

from colony.acts.animals.animals import AnimalFacts, add_animal
from colony.notation.words import ORIGINS, SEXES
from colony.screens.forms.fields.fields import Field, WordField
from colony.screens.forms.fields.measures import (
    DayField,
    KnownDayField,
    LengthField,
    NewTagField,
)
from colony.screens.forms.fields.names import SiresField, SpeciesField, TagField, TankField
from colony.screens.forms.form import Done, Facts, Form

if TYPE_CHECKING:
    from sqlmodel import Session


class ArrivalForm(Form):
    """Write down an animal from elsewhere."""

    TITLE_WORDS = "New ray"
    ACT = "animal add"
    CAUTION = "Isolate arrivals; keeping may need a licence where you live: ask the permit office."
    FIELDS = (
        NewTagField("tag", "Tag", needed=True),
        SpeciesField("species", "Species", needed=True),
        WordField("sex", "Sex", needed=True, words=SEXES, empty="F, M or U"),
        WordField("origin", "Origin", first="bred elsewhere", words=ORIGINS),
        DayField("arrived", "Arrived"),
        TankField("tank", "Tank", empty="intake, as a rule"),
        LengthField("width_mm", "Disc width", empty="12.5cm or 5in, tail excluded"),
        KnownDayField("born", "Born", empty="2024-05 or 2024 will do"),
        Field("name", "Name"),
        Field("line", "Line"),
        Field("arrived_from", "From whom"),
        TagField("dam", "Dam", sex="F", status=None),
        SiresField("sires", "Sire", status=None),
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
