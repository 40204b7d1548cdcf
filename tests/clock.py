"""Stop the clock that the commands look at."""

from datetime import date

import pytest


def stop_clock(patch: pytest.MonkeyPatch, today: date) -> None:
    """Let every command think that it is `today`."""

    class Stopped(date):
        @classmethod
        def today(cls) -> date:  # type: ignore[override]
            return today

    patch.setattr("colony.commands.read.date", Stopped)
