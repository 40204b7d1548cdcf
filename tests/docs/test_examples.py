"""What the pages show is what the program answers, on the sample colony as of its own day."""

import re
import shlex
from collections.abc import Callable, Iterator
from datetime import date
from itertools import groupby
from pathlib import Path

import pytest
from checkout import ROOT

import colony.commands.cli.read
from colony.commands.cli.failures import run

DOCS = ROOT / "docs"
PAGES = sorted(page.name for page in DOCS.glob("*.md") if "```console" in page.read_text("utf-8"))
ELIDED = "..."
"""A line of its own in an example: here lines are left out."""


class SampleDay(date):
    """The day that the sample colony's files are of."""

    @classmethod
    def today(cls) -> "SampleDay":
        """Always that day."""
        return cls(2026, 3, 2)


def examples(page: str) -> Iterator[tuple[str, list[str]]]:
    """Each command of a page, and the lines that it is said to answer."""
    text = (DOCS / page).read_text("utf-8")
    for block in re.findall(r"```console\n(.*?)```", text, flags=re.DOTALL):
        command = ""
        for line in block.splitlines():
            command = line if line.startswith("$ colony ") else command
            yield command.removeprefix("$ colony "), [] if line == command else [line]


def grouped(page: str) -> list[tuple[str, list[str]]]:
    """Each command with all its lines."""
    return [
        (command, [line for _, lines in parts for line in lines])
        for command, parts in groupby(examples(page), key=lambda one: one[0])
    ]


def shown(told: list[str], answered: list[str]) -> bool:
    """Whether an answer is as told, with any lines where some are left out."""
    wanted = "\n".join(r"(?:.*\n)*?.*" if line == ELIDED else re.escape(line) for line in told)
    return re.fullmatch(wanted, "\n".join(answered)) is not None


@pytest.mark.parametrize("page", PAGES)
def test_every_example_runs_and_answers_as_shown(
    page: str,
    sample_of: Callable[[date], Path],
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
) -> None:
    """The commands of a page, one after the other, in one book of the sample colony."""
    monkeypatch.setattr(colony.commands.cli.read, "date", SampleDay)
    monkeypatch.setenv("COLONY_BOOK", str(sample_of(SampleDay.today())))
    monkeypatch.setenv("COLUMNS", "80")
    monkeypatch.setenv("NO_COLOR", "1")
    for command, told in grouped(page):
        assert run(shlex.split(command)) == 0, command
        answer = capsys.readouterr()
        answered = (answer.out + answer.err).rstrip("\n").splitlines()
        assert shown(told, answered), f"{command} answers:\n" + "\n".join(answered)


def test_an_example_that_is_not_answered_is_noticed() -> None:
    """The comparison itself: a changed, a missing and a left-out line."""
    assert shown(["a", ELIDED, "d"], ["a", "b", "c", "d"])
    assert not shown(["a", "d"], ["a", "b", "d"])
    assert not shown(["a", ELIDED, "e"], ["a", "b", "c", "d"])
    assert PAGES
