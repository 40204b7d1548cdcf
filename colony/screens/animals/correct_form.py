"""The mending slip: a fact of an animal was wrong, or changed."""

from datetime import date
from typing import TYPE_CHECKING

from colony.acts.animals import AnimalFacts, edit_animal
from colony.notation.words import SEXES
from colony.screens.slips.blanks import Blank, WordBlank, YesNoBlank
from colony.screens.slips.known_blanks import SiresBlank, TagBlank
from colony.screens.slips.measured_blanks import KnownDayBlank, NewTagBlank, TransponderBlank
from colony.screens.slips.slip import Done, Facts, Slip

if TYPE_CHECKING:
    from sqlmodel import Session


class MendSlip(Slip):
    """Mend facts of an animal; a blank left empty changes nothing."""

    TITLE_WORDS = "Mend facts (an empty blank changes nothing)"
    ACT = "animal edit"
    BLANKS = (
        TagBlank("who", "Animal", needed=True, status=None),
        YesNoBlank("held_back", "Hold back", empty="yes keeps it as a breeder, not for sale"),
        Blank("reserved_for", "Reserved for"),
        WordBlank("sex", "Sex", words=SEXES, empty="F, M or U"),
        Blank("name", "Name"),
        NewTagBlank("tag", "New tag"),
        KnownDayBlank("born", "Born"),
        SiresBlank("sires", "Sire", status=None, empty="a test result settles it"),
        TagBlank("dam", "Dam", sex="F", status=None),
        Blank("line", "Line"),
        TransponderBlank("transponder", "Transponder", empty="15 digits"),
        Blank("breeding_ban", "Not to breed", empty="why"),
        Blank("note", "Note"),
    )

    def firsts(self) -> dict[str, str]:
        """The animal that is looked at."""
        return {"who": self.beginning.tag}

    def says_something(self) -> bool:
        """Something has to change before Enter writes."""
        return any(row.text for row in self.rows[1:])

    def write(self, session: "Session", facts: Facts, *, anyway: bool, today: date) -> Done:  # noqa: ARG002 - nothing to override
        """Mend the facts that were given."""
        own = {name: fact for name, fact in facts.items() if name != "who" and fact is not None}
        mended = edit_animal(session, tag=facts["who"], facts=AnimalFacts(**own), today=today)
        return Done(f"{mended.tag} is mended: {', '.join(own).replace('_', ' ')}.")


SLIP = MendSlip
