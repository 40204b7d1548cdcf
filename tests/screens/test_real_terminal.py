"""The real program in a real terminal: tmux types, a command reads back."""

import json
import shutil
import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from datetime import date
from pathlib import Path
from uuid import uuid4

import pytest
from checkout import ROOT

from colony.screens.frame.session import todays_date

pytestmark = pytest.mark.skipif(
    shutil.which("tmux") is None, reason="tmux is not installed: apt-get install tmux"
)

COLONY = [sys.executable, "-m", "colony"]
PATIENCE_SECONDS = 60
"""How long a busy machine may take to paint."""


class Terminal:
    """A terminal of 80 by 24 in which the program runs."""

    def __init__(self, command: str) -> None:
        # A socket each: a server that is being closed would take the next session with it.
        self._tmux = ["tmux", "-L", f"colony-{uuid4().hex}"]
        self._run("new-session", "-d", "-s", "t", "-x", "80", "-y", "24", command)

    def press(self, *keys: str) -> None:
        """Press keys by their tmux names."""
        self._run("send-keys", "-t", "t", *keys)

    def resize(self, columns: int, rows: int) -> None:
        """Make the terminal another size."""
        self._run("resize-window", "-t", "t", "-x", str(columns), "-y", str(rows))

    def shows(self, words: str) -> str:
        """Wait until some words are on the screen."""
        return self._wait(words, lambda screen: words in screen)

    def types_at(self, label: str) -> str:
        """Wait until the cursor stands in the field of that label: the next key goes there."""

        def is_there(screen: str) -> bool:
            row = int(self._run("display-message", "-t", "t", "-p", "#{cursor_y}"))
            return label in screen.splitlines()[row]

        return self._wait(f"cursor at {label}", is_there)

    def _wait(self, what: str, is_there: Callable[[str], bool]) -> str:
        began = time.monotonic()
        while time.monotonic() - began < PATIENCE_SECONDS:
            screen = self._run("capture-pane", "-t", "t", "-p")
            if is_there(screen):
                return screen
            time.sleep(0.1)
        raise AssertionError(f"{what!r} never came:\n{screen}")

    def close(self) -> None:
        """Let go of the terminal."""
        subprocess.run([*self._tmux, "kill-server"], check=False, capture_output=True)

    def _run(self, *words: str) -> str:
        return subprocess.run(
            [*self._tmux, *words], check=True, capture_output=True, text=True
        ).stdout


@pytest.fixture
def book(sample_of: Callable[[date], Path]) -> Path:
    """The sample colony, moved in time to the day on which the program runs."""
    return sample_of(todays_date())


@pytest.fixture
def terminal(book: Path) -> Iterator[Terminal]:
    """A terminal with the program open on the book."""
    words = " ".join(COLONY)
    opened = Terminal(f"cd '{ROOT}' && {words} --book '{book}'")
    yield opened
    opened.close()


def test_a_litter_recorded_with_keys_is_read_back_with_a_command(
    terminal: Terminal, book: Path
) -> None:
    """b, the dam, Enter, the pups, Enter in tmux; `colony litter list` then has the litter."""
    terminal.shows("1 Today")
    terminal.press("8")
    terminal.shows("sample colony")
    terminal.press("b")
    terminal.shows("Dam *")
    terminal.press("-l", "mira")
    terminal.shows("= female")
    terminal.press("Enter")
    terminal.types_at("Pups *")
    terminal.press("-l", "2f3m")
    terminal.shows("5 live")
    terminal.press("Enter")
    terminal.shows("of Mira by")
    listed = subprocess.run(
        [*COLONY, "litter", "list", "--book", str(book), "--json"],
        check=True,
        capture_output=True,
        text=True,
        cwd=ROOT,
    )
    newest = json.loads(listed.stdout)[0]
    assert (newest["dam"], newest["live"]) == ("Mira", 5)
    terminal.press("q")


FAULTY = """
import sys
from colony.__main__ import main
from colony.screens.widgets.entry_list import EntryList

def fail(self, event):
    if self.app.size.width < 60:
        raise IndexError("no room for this")

EntryList.on_resize = fail
main()
"""
"""The program with a fault in it: its lists cannot be drawn in a narrow terminal."""


def test_a_fault_of_the_program_is_a_sentence_that_tells_what_was_typed(
    book: Path, tmp_path: Path
) -> None:
    """The screens close with what stood in the open form and exit code 1, not with a traceback."""
    faulty = tmp_path / "faulty.py"
    faulty.write_text(FAULTY)
    terminal = Terminal(
        # A shell that was told a width would not notice another one.
        f"cd '{ROOT}' && unset COLUMNS LINES && PYTHONPATH=. {sys.executable} '{faulty}' --book '{book}'; "
        "echo left with $?; sleep 60"
    )
    try:
        terminal.shows("1 Today")
        terminal.press("3")
        terminal.shows("Expected (")
        terminal.press("b")
        terminal.shows("Dam *")
        terminal.press("-l", "2f3m")
        terminal.shows("5 live")
        terminal.resize(50, 24)
        screen = " ".join(terminal.shows("left with 1").split())
    finally:
        terminal.close()
    assert "colony: The screens had to close" in screen
    assert "no room for this" in screen
    assert "Pups: 2f3m" in screen
    assert "Traceback" not in screen
    assert "─" not in screen


def test_no_color_is_honoured(book: Path) -> None:
    """With NO_COLOR the screen holds no colour code, and every mark and word is still there."""
    words = " ".join(COLONY)
    terminal = Terminal(f"cd '{ROOT}' && NO_COLOR=1 {words} --book '{book}'")
    try:
        terminal.shows("Ready for sale")
        codes = terminal._run("capture-pane", "-t", "t", "-p", "-e")
    finally:
        terminal.close()
    assert _codes(codes) <= WITHOUT_COLOUR
    assert any("water that harms" in text for text in _reversed(codes)), "the line one is on"


WITHOUT_COLOUR = {0, 1, 2, 3, 4, 7, 22, 23, 24, 27, 39, 49}
"""Codes that set no colour: reset, bold, dim, italic, underline, reverse, and their ends (ECMA-48)."""


def _reversed(text: str) -> list[str]:
    """The stretches of a captured screen that are shown in reverse."""
    stretches, reverse = [], False
    for part in text.split("\x1b["):
        codes, _, words = part.partition("m")
        for number in codes.split(";"):
            reverse = number == "7" or (reverse and number not in {"", "0", "27"})
        if reverse:
            stretches.append(words)
    return stretches


def _codes(text: str) -> set[int]:
    """Every code of a captured screen that says how characters look."""
    parts = (part.partition("m")[0] for part in text.split("\x1b[")[1:])
    return {int(number or 0) for part in parts for number in part.split(";")}
