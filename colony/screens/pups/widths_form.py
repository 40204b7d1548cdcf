"""The widths form: tag, width, Enter, and on to the next pup."""

from datetime import date
from typing import TYPE_CHECKING

from colony.acts.pups.measure import measure
from colony.notation.fields.field import ON, TAG_OF_ANIMAL
from colony.notation.fields.pups import MASS, WIDTH
from colony.notation.house import say_growth
from colony.screens.forms.fields.catalogue import form_field
from colony.screens.forms.form import Done, Facts, Form

if TYPE_CHECKING:
    from sqlmodel import Session


class WidthsForm(Form):
    """Measure one pup after another; the next tag stands there already."""

    TITLE_WORDS = "Widths, tail excluded"
    ACT = "pup measure"
    AGAIN = True
    FIELDS = (
        form_field(TAG_OF_ANIMAL),
        form_field(WIDTH, needed=True),
        form_field(MASS),
        form_field(ON),
    )

    def initial(self) -> dict[str, str]:
        """The animal that is looked at, or the first that waits to be measured."""
        return {"tag": next(iter(self.beginning.queue), self.beginning.tag)}

    def write(self, session: "Session", facts: Facts, *, anyway: bool, today: date) -> Done:
        """Write the measurement."""
        done = measure(session, **facts, anyway=anyway, today=today)
        width = self.app.book_session.length(done.disc_width_mm)
        grown = (
            "first width"
            if done.growth_mm is None
            else f"{say_growth(done.growth_mm, signed=True)} since {done.since}"
        )
        return Done(f"{done.tag} {width}, {grown}.", done.warnings)

    def go_on(self, done: Done) -> None:
        """Show what was written, and the next tag."""
        self.past(done.in_words)
        tag, width, mass, _ = self.rows
        tag.fill(self.next_after(tag.text))
        width.fill("")
        mass.fill("")
        self.set_focus((width if tag.text else tag).input)

    def next_after(self, tag: str) -> str:
        """The tag that comes after this one in the list behind the form."""
        tags = list(self.beginning.queue)
        return tags[tags.index(tag) + 1] if tag in tags[:-1] else ""
