"""The answering form: what was done about an alarm."""

from datetime import date
from typing import TYPE_CHECKING

from colony.acts.health.answers import answer_alarm
from colony.notation.fields.care import ANSWER_FACTS
from colony.screens.forms.fields.catalogue import form_field
from colony.screens.forms.form import Done, Facts, Form

if TYPE_CHECKING:
    from sqlmodel import Session


class AnswerForm(Form):
    """Answer the alarms of a place, or one of them."""

    TITLE_WORDS = "Answer"
    ACT = "round answer"
    FIELDS = tuple(map(form_field, ANSWER_FACTS))

    def initial(self) -> dict[str, str]:
        """The alarm that is looked at."""
        begun = self.beginning.initial
        return {name: begun[name] for name in ("place", "alarm") if begun.get(name)}

    def write(self, session: "Session", facts: Facts, *, anyway: bool, today: date) -> Done:  # noqa: ARG002 - nothing to override
        """Keep the answer."""
        done = answer_alarm(session, **facts, today=today)
        return Done(f"{done.place}: {', '.join(done.alarms)} answered.")
