"""The book goes away while the screens are open: it is said, what is typed stays, and it goes on."""

from collections.abc import Sequence
from pathlib import Path

import pytest
from screens_house import ask, drive, in_batches, press, settle, shown
from sqlalchemy.exc import OperationalError
from textual.pilot import Pilot

from colony.acts.book.history import list_history
from colony.refusals.books import BookVanished
from colony.screens.app import ColonyApp
from colony.screens.forms.form import Form
from colony.screens.forms.table import FORMS
from colony.screens.frame.places import PLACES
from colony.store.book import find_again, open_book

WRITING = [name for name in FORMS if name != "partners"]
"""The forms that write; that of partners only asks, on a page of its own."""


async def look_at_book(app: ColonyApp, pilot: Pilot[None]) -> str:
    """Let the program look at the book as it does every other second, and see what it says."""
    app._poll()
    await settle(app, pilot)
    return " ".join(shown(app).split())


def move(file: Path, to: Path) -> None:
    """Give a file another name."""
    file.replace(to)


def is_there(file: Path) -> bool:
    """Whether there is a file of that name."""
    return file.exists()


def held(file: Path) -> bytes:
    """What a file holds."""
    return file.read_bytes()


def put(file: Path, content: bytes) -> None:
    """Put another file in the place of one."""
    file.unlink(missing_ok=True)
    file.write_bytes(content)


def typed(app: ColonyApp) -> list[str]:
    """What stands in the open form."""
    assert isinstance(app.screen, Form)
    return [row.text for row in app.screen.rows]


def test_a_file_that_vanishes_is_said_and_the_birth_is_written_when_it_is_back(farm: Path) -> None:
    """The form stays with what was typed; nothing is begun; Enter writes once the file is there."""
    away = farm.with_name("away.colony")

    async def look(app: ColonyApp, pilot: Pilot[None]) -> None:
        move(farm, away)
        said = await look_at_book(app, pilot)
        assert "The book is away; what is typed stays" in said
        await press(app, pilot, "enter", "tab", "type:2f3m", "ctrl+s")
        assert typed(app)[:2] == ["mira", "2f3m"]
        assert not is_there(farm)
        move(away, farm)
        said = await look_at_book(app, pilot)
        assert "The book is away" not in said
        assert typed(app)[:2] == ["mira", "2f3m"]
        await press(app, pilot, "ctrl+s")
        assert "of Mira by" in shown(app)

    drive(farm, "8", "b", "type:mira", look=look)
    assert ask(farm, list_history, most=1)[0].act == "litter record"


def test_every_place_is_there_while_the_book_is_away(farm: Path) -> None:
    """Keys go on to work without the file, and every list is read anew when it is back."""
    away = farm.with_name("away.colony")

    async def look(app: ColonyApp, pilot: Pilot[None]) -> None:
        move(farm, away)
        for place in PLACES:
            await app.action_go(place)
            await app.action_undo()
            await settle(app, pilot)
            assert "The book is away" in await look_at_book(app, pilot)
        assert not is_there(farm)
        move(away, farm)
        await app.action_go("litters")
        assert "The book is there again" in await look_at_book(app, pilot)
        assert "Alma" in shown(app)

    drive(farm, look=look)


@pytest.mark.parametrize("names", in_batches(WRITING), ids="-".join)
def test_every_form_keeps_what_is_typed_while_the_book_is_away(
    farm: Path, names: Sequence[str]
) -> None:
    """What cannot be written stays in the form, and no file is begun for it."""

    async def look(app: ColonyApp, pilot: Pilot[None]) -> None:
        move(farm, farm.with_name("away.colony"))
        for name in names:
            await app.action_form(name)
            await press(app, pilot, "type:al", "ctrl+s")
            assert isinstance(app.screen, Form), name
            assert any("al" in text for text in typed(app)), name
            await app.action_go("day")
        assert not is_there(farm)

    drive(farm, look=look)


def test_the_same_book_in_another_file_is_gone_on_in(farm: Path) -> None:
    """A copy put in the place of the file, byte by byte the same, is opened by itself."""
    away = farm.with_name("away.colony")

    async def look(app: ColonyApp, pilot: Pilot[None]) -> None:
        move(farm, away)
        assert "The book is away" in await look_at_book(app, pilot)
        put(farm, b"")
        assert "The book is away" in await look_at_book(app, pilot)
        assert held(farm) == b"", "an empty file is left as it is"
        put(farm, b"something else")
        assert "The book is away" in await look_at_book(app, pilot)
        put(farm, held(away))
        assert "The book is there again" in await look_at_book(app, pilot)
        await press(app, pilot, "e", "type:alma", "enter", "type:di", "enter", "enter")
        assert "u takes it back" in shown(app)

    drive(farm, look=look)
    assert ask(farm, list_history, most=1)[0].act == "animal end"


def test_another_file_is_not_mixed_with_the_log_of_ours(farm: Path, sample: Path) -> None:
    """While acts stand in the log beside it, only the own file will do."""
    away = farm.with_name("away.colony")

    async def look(app: ColonyApp, pilot: Pilot[None]) -> None:
        await press(app, pilot, "e", "type:alma", "enter", "type:di", "enter", "enter")
        move(farm, away)
        put(farm, held(sample))
        assert "The book is away" in await look_at_book(app, pilot)
        assert held(farm) == held(sample)
        move(away, farm)
        assert "The book is there again" in await look_at_book(app, pilot)

    drive(farm, look=look)
    assert ask(farm, list_history, most=1)[0].act == "animal end"


def test_no_connection_begins_a_file_that_vanished(farm: Path) -> None:
    """Also when the file goes between the look at it and the first statement."""
    book = open_book(str(farm))
    book.close()
    farm.unlink()
    with pytest.raises(OperationalError, match="unable to open"):
        book.engine.connect()
    with pytest.raises(BookVanished):
        find_again(book)
    assert not farm.exists()
