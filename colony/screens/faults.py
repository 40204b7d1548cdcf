"""What is said when a fault of the program ends the screens: where it was, and what was typed."""

from collections.abc import Iterable
from contextlib import suppress
from pathlib import Path
from traceback import extract_tb

from textual.screen import Screen
from textual.worker import WorkerFailed

from colony.refusals.base import Refusal
from colony.refusals.books import ScreensFailed
from colony.screens.forms.form import Form


def fault_of(error: BaseException, screens: Iterable[Screen[object]]) -> Refusal:
    """The one sentence for a fault, with what stands unwritten in the forms that are open."""
    if isinstance(error, WorkerFailed):
        error = error.error
    typed: list[str] = []
    with suppress(Exception):  # a form that is itself at fault must not keep the sentence back
        typed = [line for screen in screens if isinstance(screen, Form) for line in screen.typed]
    return ScreensFailed(_what_and_where(error), typed)


def _what_and_where(error: BaseException) -> str:
    """What went wrong, and the last line of our own on the way there."""
    words = (str(error).splitlines() or [""])[0]
    what = f"{type(error).__name__}: {words}" if words else type(error).__name__
    ours = Path(__file__).parent
    lines = [
        line for line in extract_tb(error.__traceback__) if ours in Path(line.filename).parents
    ]
    if not lines:
        return what
    place = Path(lines[-1].filename).relative_to(ours.parent).as_posix()
    return f"{what}, {place} line {lines[-1].lineno}"
