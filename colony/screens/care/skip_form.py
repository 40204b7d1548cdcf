"""The skipping slip: work of the round that is let go today, and why."""

from datetime import date
from typing import TYPE_CHECKING

from colony.acts.round import skip
from colony.screens.slips.blanks import Blank
from colony.screens.slips.slip import Done, Facts, Slip

if TYPE_CHECKING:
    from sqlmodel import Session


class SkipSlip(Slip):
    """Let a task go for a day; it is due again tomorrow."""

    TITLE_WORDS = "Skip work of the round"
    ACT = "round skip"
    BLANKS = (
        Blank("task", "Task", needed=True),
        Blank("place", "Where", needed=True),
        Blank("why", "Why", needed=True),
    )

    def write(self, session: "Session", facts: Facts, *, anyway: bool, today: date) -> Done:  # noqa: ARG002 - nothing to override
        """Write down that it was let go."""
        places = [facts["place"]]
        skip(session, task=facts["task"], places=places, why=facts["why"], on=today, today=today)
        return Done(f"{facts['task']} at {facts['place']} is skipped: {facts['why']}.")


SLIP = SkipSlip
