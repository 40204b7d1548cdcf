"""An answer that nobody hears: an act that is written is not called failed, and is written once."""

import os
import subprocess
import sys
from pathlib import Path

import pytest

from colony.acts.book.history import list_history
from colony.store.book import open_book

pytestmark = pytest.mark.skipif(os.name == "nt", reason="pipes and devices of POSIX")


@pytest.fixture
def book(tmp_path: Path) -> Path:
    """A book with one animal in it."""
    path = tmp_path / "farm.colony"
    assert shell(path, "$colony animal add Alma --species leopoldi").returncode == 0
    return path


def shell(book: Path, script: str, **more: str) -> subprocess.CompletedProcess[str]:
    """Run a line of bash in which $colony is the program."""
    return subprocess.run(
        ["bash", "-c", script],
        check=False,
        capture_output=True,
        text=True,
        env={
            **os.environ,
            "colony": f"{sys.executable} -m colony",
            "COLONY_BOOK": str(book),
            **more,
        },
    )


def notes(book: Path) -> int:
    """How many corrections are in the journal."""
    opened = open_book(str(book))
    with opened.reading() as session:
        found = sum(line.act == "animal edit" for line in list_history(session))
    opened.close()
    return found


@pytest.mark.parametrize(
    ("script", "said", "code"),
    [
        ("$colony animal edit Alma --note a | true; exit ${PIPESTATUS[0]}", "", 0),
        ("$colony animal edit Alma --note a > /dev/full", "is written.", 1),
        ("$colony animal edit Alma --note a >&-", "", 0),
    ],
)
def test_an_act_that_is_written_says_so_or_exits_as_done(
    book: Path, script: str, said: str, code: int
) -> None:
    """A pipe that closed, a full device, no standard output at all."""
    done = shell(book, script)
    assert (done.returncode, notes(book)) == (code, 1)
    assert said in done.stderr
    assert "Traceback" not in done.stderr


def test_a_command_that_only_reads_has_failed(book: Path) -> None:
    """Nothing is written, and nothing is said to be."""
    done = shell(book, "$colony animal list > /dev/full")
    assert done.returncode == 1
    assert "written" not in done.stderr


def test_a_script_sends_an_act_again_and_it_is_there_once(book: Path) -> None:
    """By the id in COLONY_ACT_ID; the second time it says which act it was."""
    for _ in range(2):
        done = shell(book, "$colony animal edit Alma --note a", COLONY_ACT_ID="mine-1")
        assert done.returncode == 0
    assert "written already, as act" in done.stderr
    assert notes(book) == 1
