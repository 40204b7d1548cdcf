"""Killed processes and crowds of writers lose no act, halve none, and are never told of a lock."""

import json
import shutil
import subprocess
import sys
from pathlib import Path
from typing import Any

import kill_matrix
import pytest

from colony.store.book import open_book
from colony.store.journal.entries import read_entries

HERE = Path(__file__).parent


def run_drill(name: str, *words: str, data: Path = HERE) -> dict[str, Any]:
    """Run a drill in a process of its own, since it forks; its figures."""
    root = HERE.parents[1]
    done = subprocess.run(
        [sys.executable, HERE / f"{name}.py", *words],
        check=True,
        capture_output=True,
        text=True,
        env={
            "PYTHONPATH": f"{root}:{root / 'tests' / 'support'}",
            "PATH": "/usr/bin:/bin",
            "COLONY_WHO": "a drill",
            "XDG_DATA_HOME": str(data),  # where the copies of a server's book go
        },
        timeout=120,
    )
    assert done.stderr == ""
    figures: dict[str, Any] = json.loads(done.stdout)
    return figures


def test_a_process_killed_at_any_moment_loses_and_halves_no_act(location: str) -> None:
    """Whatever was reported done is there after SIGKILL, whole, and the journal tells it."""
    kills, acts = ("25", "60") if "://" not in location else ("8", "20")
    figures = run_drill("crash_drill", location, kills, acts)
    assert figures["kills_while_writing"] >= int(kills) // 5
    assert (figures["acts_lost"], figures["acts_halved"], figures["rows_otherwise"]) == (0, 0, 0)
    assert figures["acts_done_unreported"] <= figures["kills"]


def test_four_writers_lose_nothing_and_are_told_of_every_conflict(location: str) -> None:
    """All acts of all are in the book; a counter that all of them counted up missed none."""
    acts = "50" if "://" not in location else "20"
    figures = run_drill("writers_drill", location, "4", acts)
    for lost in ("acts_lost", "updates_lost", "refused_otherwise", "rows_otherwise"):
        assert figures[lost] == 0
    assert figures["conflicts_told"] > 0


def test_no_act_is_lost_to_a_restore_beside_writers(location: str, tmp_path: Path) -> None:
    """Each act that was reported done is in a copy that a restore kept, or in the book."""
    figures = run_drill("restore_drill", location, "2", "2", str(tmp_path), data=tmp_path)
    assert (figures["restores"], figures["restores_failed"]) == (2, 0)
    assert figures["acts_kept"] > 0
    assert (figures["acts_lost"], figures["acts_refused"], figures["rows_otherwise"]) == (0, 0, 0)


def test_a_book_that_several_begin_at_once_is_begun_once(location: str) -> None:
    """Only one of them writes the schema and the first act; the others find a book."""
    begin = (
        "import sys; from colony.store.book import open_book; open_book(sys.argv[1], begin=True)"
    )
    together = [subprocess.Popen([sys.executable, "-c", begin, location]) for _ in range(3)]
    assert [one.wait() for one in together] == [0, 0, 0]
    book = open_book(location)
    with book.reading() as session:
        assert [entry.act for entry in read_entries(session)] == ["book begin"]
    book.close()


def test_no_damaged_backup_is_taken_for_a_good_one(tmp_path: Path) -> None:
    """By its digest; without one, what is restored holds every row and act as it was."""
    figures = run_drill("damage_drill", str(tmp_path), "60")
    assert figures["damaged"] == 60
    assert (figures["accepted_with_its_manifest"], figures["accepted_and_otherwise"]) == (0, 0)
    assert figures["faults"] == 0


@pytest.mark.skipif(shutil.which("strace") is None, reason="strace counts and kills")
def test_a_command_killed_at_a_write_call_leaves_a_whole_book(tmp_path: Path) -> None:
    """A sample of the matrix in docs/safety.md: two commands, at each five hundredth call."""
    commands = [("pup", "feed", "Alma", "smelt"), ("book", "restore", "newest", "--yes")]
    figures = kill_matrix.drill(tmp_path, 500, commands)
    assert figures.refused == []
    assert figures.kills >= 4
    assert (figures.answered_and_lost, figures.halved, figures.wrong) == (0, 0, 0)
    assert figures.not_a_book == 0
