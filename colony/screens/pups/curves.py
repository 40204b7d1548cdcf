"""The growth curve of an animal as characters, for the pane and the page."""

from datetime import date
from typing import Any

from colony.acts.pups.forecast import forecast_pup
from colony.papers.growth.text import growth_text
from colony.screens.frame.outcome import attempt

COLUMNS, ROWS = 40, 11
WEEKS_AHEAD = 12


def curve_of(session: Any, *, tag: str, today: date) -> str:  # noqa: ANN401 - an open session
    """Draw the widths and the forecast of an animal; nothing where there is none to forecast."""
    done = attempt(lambda: forecast_pup(session, tag=tag, weeks=WEEKS_AHEAD, today=today))
    if done.answer is None:
        return ""
    answer, picture = done.answer
    warnings = "".join(f"! {sentence}\n" for sentence in answer.off_curve)
    return warnings + growth_text(picture, columns=COLUMNS, rows=ROWS)
