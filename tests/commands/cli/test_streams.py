"""What a library prints reaches nobody: neither a reader of JSON nor a screen."""

import json
import os
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

COLONY = [sys.executable, "-m", "colony"]

NOISY_SOLVER = """
import os, sys, warnings
import scipy.optimize
def noisy(solve):
    def solved(*words, **more):
        os.write(1, b"SPOILT\\n"); os.write(2, b"SPOILT\\n")
        warnings.warn("SPOILT")
        return solve(*words, **more)
    return solved
scipy.optimize.milp = noisy(scipy.optimize.milp)
scipy.optimize.linprog = noisy(scipy.optimize.linprog)
from colony.__main__ import main
main()
"""
"""The program with a solver that prints as a compiled library does, past Python."""

NOISY_SCREEN = """
import os, sys, threading, time
def noise():
    while "textual.app" not in sys.modules:
        time.sleep(0.01)
    while True:
        os.write(1, b"SPOILT"); os.write(2, b"SPOILT")
        time.sleep(0.02)
threading.Thread(target=noise, daemon=True).start()
from colony.__main__ import main
main()
"""
"""The program with something that prints past Python all the while."""


@pytest.fixture(scope="module")
def sample(sample_of: Callable[[date], Path]) -> Path:
    """The sample colony of this day."""
    return sample_of(todays_date())


def ran(sample: Path, *command: str) -> subprocess.CompletedProcess[str]:
    """Run a command line on the sample."""
    environment = os.environ | {"PYTHONPATH": str(ROOT), "COLONY_BOOK": str(sample)}
    return subprocess.run(
        command, env=environment, capture_output=True, text=True, check=False, timeout=300
    )


@pytest.mark.parametrize(("weight", "males_max"), [("0", "1"), ("10", "2"), ("100", "2")])
def test_a_plan_is_one_json_document(sample: Path, weight: str, males_max: str) -> None:
    """Whatever the solver says of its work: at weight 10 and 2 females a male it did, on stdout."""
    words = ("pairing", "plan", "--json", "--weight", weight, "--males-max", males_max)
    done = ran(sample, *COLONY, *words)
    assert (done.returncode, done.stderr) == (0, "")
    assert json.loads(done.stdout)["pairs"]


def test_what_a_solver_prints_past_python_reaches_nobody(sample: Path) -> None:
    """Neither stdout nor stderr has it, and a warning to programmers is not shown either."""
    words = ("pairing", "plan", "--json", "--litters", "2")
    done = ran(sample, sys.executable, "-c", NOISY_SOLVER, *words)
    assert (done.returncode, done.stderr) == (0, "")
    assert len(json.loads(done.stdout)["pairs"]) == 2


def test_a_crash_is_still_told(sample: Path) -> None:
    """What stops the program itself is on stderr, and the exit code is not 0."""
    crash = "import colony.commands.cli.failures as f; f.run = lambda: 1 // 0; from colony.__main__ import main; main()"
    done = ran(sample, sys.executable, "-c", crash, "animal", "list")
    assert done.returncode == 1
    assert "ZeroDivisionError" in done.stderr


@pytest.mark.skipif(os.name == "nt", reason="closes streams as a POSIX shell does")
@pytest.mark.parametrize(
    ("closed", "code"), [(">&-", 0), ("2>&-", 0), ("<&-", 0), ("<&- >&- 2>&-", 0)]
)
def test_a_closed_stream_is_no_error(sample: Path, closed: str, code: int) -> None:
    """What would go there goes nowhere, and what goes elsewhere arrives."""
    command = f"{sys.executable} -m colony animal list --json {closed}"
    done = ran(sample, "bash", "-c", command)
    assert (done.returncode, done.stderr) == (code, "")
    assert (done.stdout == "") == (">&- " in f"{closed} ".replace("2>&- ", ""))


@pytest.fixture
def screen(sample: Path, tmp_path: Path) -> Iterator[list[str]]:
    """A terminal in which the noisy program runs; the words with which to ask it."""
    script = tmp_path / "noisy.py"
    script.write_text(NOISY_SCREEN, encoding="utf-8")
    tmux = ["tmux", "-L", f"colony-{uuid4().hex}"]
    command = f"cd '{ROOT}' && PYTHONPATH='{ROOT}' {sys.executable} '{script}' --book '{sample}'"
    subprocess.run([*tmux, "new-session", "-d", "-x", "80", "-y", "24", command], check=True)
    yield tmux
    subprocess.run([*tmux, "kill-server"], check=False, capture_output=True)


@pytest.mark.skipif(shutil.which("tmux") is None, reason="tmux is not installed")
def test_what_a_library_prints_spoils_no_screen(screen: list[str]) -> None:
    """While something prints past Python all the time, the screen shows the day and nothing else."""

    def shown() -> str:
        words = [*screen, "capture-pane", "-p"]
        return subprocess.run(words, check=True, capture_output=True, text=True).stdout

    for _ in range(300):
        time.sleep(0.2)
        if "Ready for sale" in shown() or "SPOILT" in shown():
            break
    time.sleep(0.5)
    assert "Ready for sale" in shown()
    assert "SPOILT" not in shown()
