"""The form of corrections: a fact of an animal was wrong, or changed."""

from datetime import date
from typing import TYPE_CHECKING

from colony.acts.animals.animals import AnimalFacts, edit_animal
from colony.notation.words import SEXES
from colony.screens.forms.fields.fields import Field, WordField, YesNoField
from colony.screens.forms.fields.measures import KnownDayField, NewTagField, TransponderField
from colony.screens.forms.fields.names import SiresField, TagField
from colony.screens.forms.form import Done, Facts, Form

if TYPE_CHECKING:
    from sqlmodel import Session


class CorrectForm(Form):
    """Correct facts of an animal; a field left empty changes nothing."""

    TITLE_WORDS = "Correct facts (an empty field changes nothing)"
    ACT = "animal edit"
    FIELDS = (
        TagField("who", "Animal", needed=True, status=None),
        YesNoField("held_back", "Hold back", empty="yes keeps it as a breeder, not for sale"),
        Field("reserved_for", "Reserved for"),
        WordField("sex", "Sex", words=SEXES, empty="F, M or U"),
        Field("name", "Name"),
        NewTagField("tag", "New tag"),
        KnownDayField("born", "Born"),
        SiresField("sires", "Sire", status=None, empty="a test result settles it"),
        TagField("dam", "Dam", sex="F", status=None),
        Field("line", "Line"),
        TransponderField("transponder", "Transponder", empty="15 digits"),
        Field("breeding_ban", "Not to breed", empty="why"),
        Field("note", "Note"),
    )

    def initial(self) -> dict[str, str]:
        """The animal that is looked at."""
        return {"who": self.beginning.tag}

    def says_something(self) -> bool:
        """Something has to change before Enter writes."""
        return any(row.text for row in self.rows[1:])

    def write(self, session: "Session", facts: Facts, *, anyway: bool, today: date) -> Done:  # noqa: ARG002 - nothing to override
        """Correct the facts that were given."""
        own = {name: fact for name, fact in facts.items() if name != "who" and fact is not None}
        corrected = edit_animal(session, tag=facts["who"], facts=AnimalFacts(**own), today=today)
        return Done(f"{corrected.tag} is corrected: {', '.join(own).replace('_', ' ')}.")
