"""Drive the real screens on a real book file: keys in, what is shown and what is written out."""

import asyncio
import shutil
from collections.abc import Awaitable, Callable, Iterable, Sequence
from datetime import date
from pathlib import Path
from typing import Any, TypeVar

from textual.events import Key
from textual.keys import _character_to_key
from textual.pilot import Pilot

from colony.screens.app import ColonyApp
from colony.screens.frame.session import BookSession
from colony.screens.pups.pups import PAUSE_SECONDS
from colony.store.book import open_book

T = TypeVar("T")

TODAY = date(2026, 3, 2)
"""The day the sample colony was written down: nothing of it is moved in time."""

SMALL, WIDE = (80, 24), (120, 40)

BATCH = 3
"""How many places or forms are looked at in one program: most of the time goes into starting it."""


def in_batches(names: Iterable[str]) -> list[tuple[str, ...]]:
    """The names in groups."""
    known = tuple(names)
    return [known[at : at + BATCH] for at in range(0, len(known), BATCH)]


Keys = Sequence[str]
Look = Callable[[ColonyApp, Pilot[None]], Awaitable[T]]


def desk_of(path: Path, today: date = TODAY) -> BookSession:
    """A book_session with a book on it."""
    book_session = BookSession(open_book(str(path)), clock=lambda: today)
    book_session.begin()
    return book_session


def drive(
    path: Path,
    *keys: str,
    size: tuple[int, int] = SMALL,
    look: Callable[[ColonyApp, Pilot[None]], Awaitable[T]] | None = None,
    theme: str = "blackwater",
) -> T | None:
    """Open the screens on a book, press keys, let all work end, look, and leave."""
    book_session = desk_of(path)

    async def run() -> T | None:
        app = ColonyApp(book_session, theme)
        async with app.run_test(size=size) as pilot:
            await settle(app, pilot)
            await press(app, pilot, *keys)
            return None if look is None else await look(app, pilot)

    try:
        return asyncio.run(run())
    finally:
        book_session.book.close()


async def press(app: ColonyApp, pilot: Pilot[None], *keys: str) -> None:
    """Press keys, each when the one before has had its effect.

    ``type:text`` types a text; ``rest`` lets go of the keys for as long as one looks at a line.
    """
    for key in keys:
        if key == "rest":
            await pilot.pause(2 * PAUSE_SECONDS)
        elif key.startswith("type:"):
            for letter in key.removeprefix("type:"):
                app.post_message(Key(_character_to_key(letter), letter))
                await pilot.pause(0)
            await pilot.pause()
        else:
            letter = {"space": " "}.get(key, key)
            app.post_message(
                Key(_character_to_key(letter), letter) if len(letter) == 1 else Key(key, None)
            )
            await pilot.pause()
        await settle(app, pilot)


async def settle(app: ColonyApp, pilot: Pilot[None]) -> None:
    """Wait until nothing is read or written any more."""
    for _ in range(200):
        # Without a delay it would wait for an idle processor: most of a run went into that.
        await pilot.pause(0)
        if not app.busy and all(worker.is_finished for worker in app.workers):
            await pilot.pause(0)
            return
        await asyncio.sleep(0.01)
    raise AssertionError("the screens did not come to rest")


def shown(app: ColonyApp) -> str:
    """What is on the screen, as text."""
    compositor: Any = app.screen._compositor
    return "\n".join(strip.text.rstrip() for strip in compositor.render_strips()) + "\n"


async def shown_at_rest(app: ColonyApp, pilot: Pilot[None]) -> str:
    """What is on the screen when drawing it again changes nothing."""
    text = shown(app)
    for _ in range(20):
        await pilot.pause()
        before, text = text, shown(app)
        if text == before:
            return text
    raise AssertionError("the screen did not come to rest")


def text_after(path: Path, *keys: str, size: tuple[int, int] = SMALL) -> str:
    """What is on the screen after some keys."""

    async def look(app: ColonyApp, pilot: Pilot[None]) -> str:
        return await shown_at_rest(app, pilot)

    text = drive(path, *keys, size=size, look=look)
    assert text is not None
    return text


def ask(path: Path, question: Callable[..., T], **facts: Any) -> T:  # noqa: ANN401 - facts of any act
    """Ask a book what it holds."""
    book = open_book(str(path))
    try:
        with book.reading() as session:
            return question(session, **facts)
    finally:
        book.close()


def act(path: Path, name: str, do: Callable[..., T], **facts: Any) -> T:  # noqa: ANN401 - the same
    """Do an act as another process would."""
    book = open_book(str(path))
    try:
        with book.act(name) as session:
            return do(session, **facts)
    finally:
        book.close()


def copy_of(sample: Path, folder: Path) -> Path:
    """A copy of a book that a test may write in."""
    return Path(shutil.copy(sample, folder / "farm.colony"))
