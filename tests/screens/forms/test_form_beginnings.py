"""Where a form begins, what Enter takes, and who is named before an end is written."""

from pathlib import Path

import pytest
from screens_house import TODAY, ask, drive, in_batches, press, settle, shown, text_after
from textual.events import Key
from textual.pilot import Pilot
from textual.widgets import Input

from colony.acts.animals.page import show_animal
from colony.acts.book.history import list_history
from colony.screens.app import ColonyApp
from colony.screens.forms.fields.names import TagField
from colony.screens.forms.form import Form
from colony.screens.forms.table import FORMS
from colony.screens.loaders import FORM_CLASSES
from colony.screens.widgets.field_row import FieldRow

ON_WANDA = ("2", "type:wanda", "tab")
"""Keys that lead to Wanda's row in the list of all animals."""

BEGINS_AT = {
    "birth": "pups",
    "widths": "width_mm",
    "move": "tank",
    "sign": "kind",
    "partners": "tag",
    "check": "finding",
    "fed": "food",
    "end": "how",
    "join": "sires",
    "part": "on",
    "hold": "why",
    "release": "on",
    "correct": "held_back",
    "arrival": "tag",
    "skip": "task",
    "count": "tank",
    "meal": "tank",
    "test": "system",
    "answer": "place",
    "tank": "code",
    "buyer": "name",
    "order": "buyer",
    "keep": "order",
    "paid": "order",
    "ship": "order",
    "over": "order",
}
"""The first field without an answer on Wanda's row; the last one where none is empty."""

FILLED = {
    "birth": {"dam": "Alma", "pups": "1F"},
    "widths": {"tag": "Alma", "width_mm": "40cm"},
    "move": {"tags": "Alma", "tank": "G1"},
    "sign": {"dam": "Alma", "kind": "bite marks"},
    "partners": {"tag": "Alma"},
    "check": {"dam": "Alma", "finding": "pregnant"},
    "fed": {"tag": "Alma", "food": "prawn"},
    "end": {"tag": "Alma", "how": "died"},
    "join": {"dam": "Alma", "sires": "Bruno"},
    "part": {"dam": "Alma"},
    "hold": {"tag": "Alma", "why": "cloudy eye"},
    "release": {"tag": "Alma"},
    "correct": {"who": "Alma", "line": "blue"},
    "arrival": {"tag": "Zora", "species": "motoro", "sex": "F"},
    "skip": {"task": "look", "place": "N1", "why": "away"},
    "count": {"tank": "N1", "counted": "4"},
    "meal": {"tank": "N1", "food": "pellets"},
    "test": {"system": "north", "values": "ph=6.8"},
    "answer": {"place": "N1", "answer": "half the water changed"},
    "tank": {"code": "X1", "system": "North", "role": "nursery"},
    "buyer": {"name": "Carla Reed"},
    "order": {"buyer": "Anna", "wants": "1F motoro"},
    "keep": {"tags": "Alma", "order": "1"},
    "paid": {"order": "1", "amount": "100"},
    "ship": {"order": "1"},
    "over": {"order": "1"},
}
"""Answers for every field that has to be filled."""

WITHOUT_ANIMALS = {
    *("skip", "count", "meal", "test", "answer", "tank"),
    *("buyer", "order", "paid", "ship", "over"),
}
"""Forms that are about a place, a buyer or an order."""

SEVERAL = {"F": "mi", "M": "l7", None: "l7"}
"""Two letters with which the tags of several animals begin, by the sex that is asked for."""


def focused(app: ColonyApp) -> str:
    """The name of the field in which one types."""
    assert isinstance(app.focused, Input)
    row = app.focused.query_ancestor(FieldRow)
    return row.field.name


@pytest.mark.parametrize("size", [(80, 24), (120, 40)])
@pytest.mark.parametrize("names", in_batches(FORMS), ids="-".join)
def test_every_form_begins_at_its_first_field_without_an_answer(
    sample: Path, names: tuple[str, ...], size: tuple[int, int]
) -> None:
    """On a row every form skips what the row has answered; Shift+Tab still leads back to it."""

    async def look(app: ColonyApp, pilot: Pilot[None]) -> None:
        begins = {}
        for name in names:
            await app.action_form(name)
            await settle(app, pilot)
            begins[name] = focused(app)
            rows = list(app.screen.query(FieldRow))
            place = [row.field.name for row in rows].index(begins[name])
            await press(app, pilot, *["shift+tab"] * place)
            assert focused(app) == rows[0].field.name, name
            await press(app, pilot, "escape")
        assert begins == {name: BEGINS_AT[name] for name in names}

    drive(sample, *ON_WANDA, size=size, look=look)


@pytest.mark.parametrize("names", in_batches(FORMS), ids="-".join)
def test_enter_takes_none_of_several_animals_in_any_form(
    farm: Path, names: tuple[str, ...]
) -> None:
    """Two letters that several tags begin with stay as typed, the tags are named, nothing is written."""

    async def look(app: ColonyApp, pilot: Pilot[None]) -> None:
        for name in names:
            tag_fields = [
                field for field in FORM_CLASSES[name]().FIELDS if isinstance(field, TagField)
            ]
            assert bool(tag_fields) is (name not in WITHOUT_ANIMALS)
            for field in tag_fields:
                letters = SEVERAL[field.sex]
                await app.action_form(name, **{**FILLED[name], field.name: ""})
                await settle(app, pilot)
                form = app.screen
                assert isinstance(form, Form)
                row = next(row for row in form.rows if row.field is field)
                form.set_focus(row.input)
                await press(app, pilot, f"type:{letters}", "enter", "enter")
                assert app.screen is form, f"{name}, {field.name}"
                assert row.text == letters
                assert f"! Several begin with {letters}: " in shown(app), f"{name}: {shown(app)}"
                await press(app, pilot, "escape", "escape")

    drive(farm, "8", look=look)
    assert ask(farm, list_history, most=1)[0].act == "sample"


def test_what_has_one_end_is_taken_and_shown(sample: Path) -> None:
    """A beginning that one tag has is completed, and who it is stands below it."""
    text = " ".join(text_after(sample, "8", "e", "type:wan", "enter").split())
    assert "Animals * Wanda = female, motoro" in text


def test_letters_on_a_row_never_write_somebody_else_dead(farm: Path) -> None:
    """On Wanda's row `e d Enter d Enter` leaves Dante and Wanda alive, and names Wanda."""

    async def look(app: ColonyApp, pilot: Pilot[None]) -> None:
        await press(app, pilot, "e", "d", "enter")
        assert "Wanda, female motoro, in S1: died 2026-03-02. Enter writes it." in shown(app)
        await press(app, pilot, "d", "enter")
        assert "Enter writes it" not in shown(app)

    drive(farm, *ON_WANDA, look=look)
    assert ask(farm, list_history, most=1)[0].act == "sample"
    assert status(farm, "Dante") == status(farm, "Wanda") == "present"


@pytest.mark.parametrize("writes", ["enter", "ctrl+s"])
def test_an_end_is_named_before_the_enter_that_writes_it(farm: Path, writes: str) -> None:
    """The first Enter names the animal, the second writes; what is typed between asks anew."""

    async def look(app: ColonyApp, pilot: Pilot[None]) -> None:
        await press(app, pilot, "e", "type:di", writes)
        assert "Wanda, female motoro, in S1: died 2026-03-02. Enter writes it." in shown(app)
        assert status(farm, "Wanda") == "present"
        await press(app, pilot, "tab", "type:yesterday")
        assert "in S1: died" not in shown(app)
        await press(app, pilot, writes)
        assert "Wanda, female motoro, in S1: died 2026-03-01. Enter writes it." in shown(app)
        assert status(farm, "Wanda") == "present"
        await press(app, pilot, writes)

    drive(farm, *ON_WANDA, look=look)
    assert status(farm, "Wanda") == "died"


def test_escape_takes_back_the_wish_to_end(farm: Path) -> None:
    """Esc at the named line writes nothing, and the next Enter names the animal again."""
    text = text_after(farm, *ON_WANDA, "e", "type:gone", "enter", "escape", "enter")
    assert "gone 2026-03-02. Enter writes it." in text
    assert status(farm, "Wanda") == "present"


def status(path: Path, tag: str) -> str:
    """Whether an animal is here, as the book has it."""
    return str(ask(path, show_animal, tag=tag, today=TODAY).facts["status"])


def test_a_question_stays_in_sight_of_keys_typed_ahead(farm: Path) -> None:
    """A letter and Enter in one go: the animal is named, and the line is not painted over."""

    async def look(app: ColonyApp, pilot: Pilot[None]) -> None:
        await press(app, pilot, "e")
        for key in ("d", "enter"):
            app.post_message(Key(key, key if len(key) == 1 else None))
        await settle(app, pilot)
        await settle(app, pilot)
        assert "died 2026-03-02. Enter writes it." in shown(app)

    drive(farm, *ON_WANDA, look=look)
    assert status(farm, "Wanda") == "present"
