"""Stop the clock that the commands look at."""

from datetime import date

import pytest


def stop_clock(patch: pytest.MonkeyPatch, today: date) -> None:
    """Let every command think that it is `today`."""

    class Stopped(date):
        @classmethod
        def today(cls) -> "Stopped":
            return cls(today.year, today.month, today.day)

    patch.setattr("colony.commands.cli.read.date", Stopped)
