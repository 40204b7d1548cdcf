"""No size of the terminal ends the program, whatever is open."""

from collections.abc import Sequence
from pathlib import Path

import pytest
from screens_house import SMALL, drive, in_batches, press, settle, shown
from test_places import SEEN
from textual.geometry import Size
from textual.pilot import Pilot

from colony.screens.app import ColonyApp
from colony.screens.forms.table import FORMS
from colony.screens.widgets.bars import bar
from colony.screens.widgets.field_row import FieldRow

SIZES = ((20, 6), (30, 10), (50, 20), (52, 24), (300, 100))
"""Columns and rows: the least, two at which lists had no room for a drawing, and the greatest."""


async def through_sizes(
    app: ColonyApp, pilot: Pilot[None], sizes: Sequence[tuple[int, int]] = SIZES
) -> None:
    """Resize the terminal to each size; pilot raises what goes wrong on the way."""
    for size in sizes:
        await pilot.resize_terminal(*Size(*size))
        await settle(app, pilot)
        assert shown(app).count("\n") == size[1]


async def leave(app: ColonyApp, pilot: Pilot[None]) -> None:
    """Close what is open over the places, at the size that keys were meant for."""
    await pilot.resize_terminal(*SMALL)
    await app.action_go("day")
    await settle(app, pilot)


@pytest.mark.parametrize("names", in_batches(SEEN), ids="-".join)
def test_no_size_ends_the_program_in_any_place(sample: Path, names: Sequence[str]) -> None:
    """Each place and page is drawn from 20x6 to 300x100; some after each other in one program."""

    async def look(app: ColonyApp, pilot: Pilot[None]) -> None:
        for name in names:
            await press(app, pilot, *SEEN[name])
            await through_sizes(app, pilot)
            await leave(app, pilot)

    drive(sample, look=look)


@pytest.mark.parametrize("names", in_batches(FORMS), ids="-".join)
def test_no_size_ends_the_program_or_takes_what_was_typed(
    sample: Path, names: Sequence[str]
) -> None:
    """Each form keeps what stands in it at 20x6 and at 50x20, with the births behind it."""

    async def look(app: ColonyApp, pilot: Pilot[None]) -> None:
        for name in names:
            await app.action_go("litters")
            await app.action_form(name)
            await press(app, pilot, "type:al")
            before = [row.text for row in app.screen.query(FieldRow)]
            assert any("al" in text for text in before)
            await through_sizes(app, pilot, SIZES[:3:2])
            assert [row.text for row in app.screen.query(FieldRow)] == before
            await leave(app, pilot)

    drive(sample, look=look)


@pytest.mark.parametrize("width", range(4))
def test_a_bar_without_room_is_drawn_in_what_there_is(width: int) -> None:
    """A bar beyond its end and with a limit is as wide as was asked, down to nothing."""
    assert len(bar(1.4, width, limit=0.5)) == width
