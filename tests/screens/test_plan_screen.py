"""The page of a pairing plan while it is being searched for."""

from pathlib import Path
from time import monotonic, sleep
from typing import Any

import pytest
from screens_house import drive, press, shown
from textual.events import Key
from textual.pilot import Pilot

from colony.acts.pairings.plan import Proposed, propose_plan
from colony.planning.pairings.request import Watch
from colony.screens.app import ColonyApp
from colony.screens.pairings import plan
from colony.screens.widgets.entry_list import EntryList, Line


def test_esc_takes_the_best_plan_so_far_and_then_goes_back(
    farm: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """While a plan is searched for the page says how near it is, and never that there is none."""

    def slow(session: Any, *, watch: Watch, **asked: Any) -> Proposed:  # noqa: ANN401 - any session
        watch.tell(0.05)
        began = monotonic()
        while not watch.stopped() and monotonic() - began < 20:
            sleep(0.01)
        return propose_plan(session, watch=watch, **asked)

    monkeypatch.setattr(plan, "propose_plan", slow)

    async def look(app: ColonyApp, pilot: Pilot[None]) -> None:
        app.post_message(Key("g", "g"))
        while "within 5.00% of the best" not in shown(app):
            await pilot.pause(0.02)
        assert "Esc takes the best so far" in shown(app)
        assert "No pair" not in shown(app)
        began = monotonic()
        await press(app, pilot, "escape")
        assert monotonic() - began < 10
        marks = [
            entry.mark
            for entry in app.screen.query_one(EntryList).entries
            if isinstance(entry, Line)
        ]
        assert "●" in marks
        await press(app, pilot, "escape")
        assert not isinstance(app.screen, plan.PairingPlan)

    drive(farm, "4", look=look)
