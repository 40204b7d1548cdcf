"""Undo at the screens: a held key takes back one act, and what matters is asked about first."""

import asyncio
import datetime as dt
from pathlib import Path

import pytest
from screens_house import TODAY, act, ask, drive, press, settle, shown
from textual.events import Key
from textual.pilot import Pilot

from colony.acts.animals.animals import edit_animal
from colony.acts.book.history import HistoryLine, list_history
from colony.commands.cli.failures import run
from colony.notation.fields.facts import AnimalFacts
from colony.screens.animals.correct_form import CorrectForm
from colony.screens.app import ColonyApp
from colony.screens.frame.held_key import PAUSE_SECONDS
from colony.store import clock


def acts_of(farm: Path) -> list[str]:
    """The acts of the book, the newest first."""
    return [one.act for one in ask(farm, list_history)]


def newest(farm: Path) -> HistoryLine:
    """The last act."""
    (line,) = ask(farm, list_history, most=1)
    return line


def note(farm: Path, words: str) -> None:
    """An act of a few columns, as another process would write it."""
    act(farm, "animal edit", edit_animal, tag="Alma", facts=AnimalFacts(note=words), today=TODAY)


async def hold(app: ColonyApp, pilot: Pilot[None], key: str, seconds: float = 1.2) -> None:
    """Hold a key as a terminal tells it: once, then after a while some 30 times a second."""
    await pilot.press(key)
    await asyncio.sleep(0.5)
    for _ in range(round(seconds * 30)):
        app.post_message(Key(key, key))
        await asyncio.sleep(1 / 30)
    await settle(app, pilot)


@pytest.mark.parametrize("key", ["u", "z"])
def test_a_held_key_takes_back_one_act(farm: Path, key: str) -> None:
    """Forty repeats of u are one undo; of z on the log too, which would go there and back."""
    for words in ("one", "two", "three"):
        note(farm, words)
    before = len(acts_of(farm))

    async def look(app: ColonyApp, pilot: Pilot[None]) -> None:
        await hold(app, pilot, key)
        assert "Let go of the key" in " ".join(shown(app).split())

    drive(farm, "8", look=look)
    assert acts_of(farm)[: len(acts_of(farm)) - before] == ["undo"]


def test_a_screen_that_was_slow_does_not_take_repeats_for_presses(farm: Path) -> None:
    """What counts is when a key was pressed, not when the program came to look at it."""
    note(farm, "one")
    note(farm, "two")

    async def look(app: ColonyApp, pilot: Pilot[None]) -> None:
        await press(app, pilot, "u")
        repeats = [Key("u", "u") for _ in range(5)]
        await asyncio.sleep(PAUSE_SECONDS + 0.2)
        for repeat in repeats:
            app.post_message(repeat)
        await settle(app, pilot)

    drive(farm, "8", look=look)
    assert acts_of(farm)[:2] == ["undo", "animal edit"]


def test_after_a_pause_or_another_act_undo_goes_further_back(farm: Path) -> None:
    """Step by step, as a person presses it."""
    for words in ("one", "two", "three"):
        note(farm, words)

    async def look(app: ColonyApp, pilot: Pilot[None]) -> None:
        await press(app, pilot, "u")
        await asyncio.sleep(PAUSE_SECONDS + 0.2)
        await press(app, pilot, "u")
        to_name = ["tab"] * [field.name for field in CorrectForm.FIELDS].index("name")
        await press(app, pilot, "d", "type:alma", *to_name, "type:Al", "enter")
        await press(app, pilot, "u")

    drive(farm, "8", look=look)
    assert acts_of(farm)[:4] == ["undo", "animal edit", "undo", "undo"]


def test_an_import_is_asked_about_and_a_held_u_does_not_answer(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The question stays while u is held; n leaves the import, y takes it back."""
    monkeypatch.setenv("COLONY_WHO", "keeper")
    book, sheet = tmp_path / "new.colony", tmp_path / "sheet.csv"
    sheet.write_text("tag,sex\nAlma,F\nBruno,M\n", "utf-8")
    assert run(["book", "import", str(sheet), "--book", str(book)]) == 0
    imported = newest(book).number

    async def look(app: ColonyApp, pilot: Pilot[None]) -> None:
        await hold(app, pilot, "u")
        assert "an import" in shown(app)
        await press(app, pilot, "n")
        assert newest(book).number == imported
        await press(app, pilot, "u", "y")

    drive(book, "8", look=look)
    assert newest(book).summary.startswith(f"undid {imported}:")


def test_what_another_person_wrote_is_no_target_of_u_and_z_asks(
    farm: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Key u passes Ada's act over and takes back one's own; z on hers asks, and y takes it back."""
    note(farm, "mine")
    monkeypatch.setenv("COLONY_WHO", "Ada")
    act(farm, "animal edit", edit_animal, tag="Bruno", facts=AnimalFacts(note="x"), today=TODAY)
    hers = newest(farm).number
    monkeypatch.setenv("COLONY_WHO", "keeper")

    async def look(app: ColonyApp, pilot: Pilot[None]) -> None:
        await press(app, pilot, "z")
        assert "written by Ada" in shown(app)
        await press(app, pilot, "n")
        assert newest(farm).number == hers
        await press(app, pilot, "u")
        assert newest(farm).summary.endswith("Alma was corrected: note")
        await press(app, pilot, "8", "down", "rest")
        await asyncio.sleep(PAUSE_SECONDS)
        await press(app, pilot, "z", "y")

    drive(farm, "8", look=look)
    assert newest(farm).summary == f"undid {hers}: Bruno was corrected: note"


def test_what_was_written_on_another_day_is_asked_about(
    farm: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Esc leaves it; only y takes it back, whatever else is pressed."""
    note(farm, "yesterday")
    last, tomorrow = newest(farm).number, clock.now() + dt.timedelta(days=1)
    monkeypatch.setattr(clock, "now", lambda: tomorrow)

    async def look(app: ColonyApp, pilot: Pilot[None]) -> None:
        await hold(app, pilot, "u", 0.3)
        assert "written on" in shown(app)
        await press(app, pilot, "enter", "space", "escape")
        assert newest(farm).number == last
        await press(app, pilot, "u", "y")

    drive(farm, "8", look=look)
    assert newest(farm).summary.startswith(f"undid {last}:")
