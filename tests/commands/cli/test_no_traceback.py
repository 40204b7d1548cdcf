"""The program whole: wrong numbers, deep files and damaged books end in one sentence."""

import os
import sqlite3
import subprocess
import sys
from collections.abc import Callable
from contextlib import closing
from dataclasses import dataclass
from datetime import date
from pathlib import Path

import pytest
from checkout import ROOT

from colony.commands.cli.failures import run
from colony.screens.frame.session import todays_date

HUGE = "99999999999999999999999"


@pytest.fixture(scope="module")
def sample(sample_of: Callable[[date], Path]) -> Path:
    """The sample colony, which all tests only read."""
    return sample_of(todays_date())


@dataclass(frozen=True)
class Done:
    """What a command left: its exit code, and what it said on each stream."""

    returncode: int
    stdout: str
    stderr: str


Ran = Callable[..., Done]


@pytest.fixture
def ran(monkeypatch: pytest.MonkeyPatch, capfd: pytest.CaptureFixture[str]) -> Ran:
    """Run the program's words on a book; an error that is no refusal fails the test."""
    monkeypatch.setenv("COLUMNS", "300")
    monkeypatch.setenv("COLONY_WHO", "keeper")

    def do(book: Path, *words: str) -> Done:
        monkeypatch.setenv("COLONY_BOOK", str(book))
        capfd.readouterr()
        return Done(run(list(words)), *capfd.readouterr())

    return do


def sentence(done: Done, code: int) -> str:
    """The one sentence with which a command was refused, on stderr alone."""
    assert (done.returncode, done.stdout) == (code, ""), done.stderr
    assert done.stderr.count("\n") == 1
    assert done.stderr.startswith("colony: ")
    return done.stderr


def harmed(sample: Path, folder: Path, statement: str) -> Path:
    """A copy of the sample that was changed past the program, its rules off."""
    book = folder / "harmed.colony"
    with closing(sqlite3.connect(sample)) as old, closing(sqlite3.connect(book)) as new:
        old.backup(new)
        new.execute("PRAGMA ignore_check_constraints = ON")
        for trigger in new.execute("SELECT name FROM sqlite_schema WHERE type = 'trigger'"):
            new.execute(f"DROP TRIGGER {trigger[0]}")
        assert new.execute(statement).rowcount > 0
        new.commit()
    return book


@pytest.mark.parametrize(
    ("words", "right"),
    [
        (("book", "undo", HUGE), "less than or equal to 1000000"),
        (("book", "undo", "9223372036854775808"), "less than or equal to 1000000"),
        (("book", "undo", "--act", HUGE), "There is no act"),
        (("book", "undo", "--act", f"-{HUGE}"), "There is no act"),
        (("round", "count", "N1", HUGE), "less than or equal to 10000"),
        (("book", "settings", "load_limit", "1e-320"), "from 0.01 to 5"),
        (("book", "settings", "load_limit", "nan"), "from 0.01 to 5"),
        (("book", "settings", "tap_nitrate_mg_l", "inf"), "from 0 to 1000"),
        (("book", "settings", "reserve_l", HUGE), "litres"),
        (("pairing", "plan", "--males-max", HUGE), "less than or equal to 1000000"),
        (("pairing", "plan", "--seed", f"-{HUGE}"), "greater than or equal to 0"),
        (("tank", "outlook", "--weeks", HUGE), "less than or equal to 104"),
    ],
)
def test_a_number_that_cannot_be_meant_is_wrong_use(
    sample: Path, ran: Ran, words: tuple[str, ...], right: str
) -> None:
    """Exit code 2, and what would be right."""
    assert right in sentence(ran(sample, *words), 2)


def test_hardly_any_sales_are_no_sales(sample: Path, ran: Ran) -> None:
    """A pup whose turn comes after the last day of the calendar stays where it is."""

    def with_sales(a_week: str) -> Done:
        return ran(sample, "tank", "outlook", "--weeks", "2", "--sales", a_week)

    none = with_sales("0")
    assert (none.returncode, none.stderr) == (0, "")
    assert with_sales("5e-324") == with_sales("0.001") == none


@pytest.mark.parametrize("deep", ["x = " + "[" * 100_000, "[a]\nx = " + "{a=" * 100_000])
def test_brackets_without_end_are_no_colony(
    sample: Path, ran: Ran, tmp_path: Path, deep: str
) -> None:
    """A colony.toml that is nested deeper than anybody reads is refused as what it is."""
    (tmp_path / "colony.toml").write_text(deep, encoding="utf-8")
    assert "colony.toml" in sentence(ran(sample, "book", "import", str(tmp_path)), 2)


DAMAGES = {
    "born": ("UPDATE animal SET born = '2026-02-30' WHERE tag = 'Alma'", "born is a day"),
    "end": ("UPDATE pairing SET started = 'then' WHERE id = 1", "started is a day"),
    "role": ("UPDATE tank SET role = 'pond' WHERE id = 1", "role is one of"),
    "sex": ("UPDATE animal SET sex = '?' WHERE tag = 'Alma'", "sex is one of"),
}
"""What somebody changed past the program, and the rule that it breaks."""

LISTINGS = (
    ("animal", "list"),
    ("tank", "list"),
    ("litter", "due"),
    ("litter", "list"),
    ("pairing", "pick", "Alma"),
    ("pup", "ready"),
    ("health", "watch"),
    ("book", "undo", "--yes"),
    (),
)


@pytest.mark.parametrize("what", DAMAGES)
def test_the_check_of_a_damaged_book_names_the_row(
    sample: Path, ran: Ran, tmp_path: Path, what: str
) -> None:
    """Exit code 1 and the rest of the report; a book made anew from the journal is whole."""
    statement, rule = DAMAGES[what]
    book = harmed(sample, tmp_path, statement)
    done = ran(book, "book", "check")
    assert (done.returncode, done.stderr) == (1, "")
    assert f"breaks a rule: {rule}" in done.stdout
    assert "colony book rebuild PATH" in done.stdout
    anew = tmp_path / "anew.colony"
    assert ran(book, "book", "rebuild", str(anew)).returncode == 0
    assert ran(anew, "book", "check").stdout.startswith("Nothing is wrong or odd.\n")


@pytest.mark.parametrize("what", DAMAGES)
def test_a_damaged_book_is_answered_from_or_refused(
    sample: Path, ran: Ran, tmp_path: Path, what: str
) -> None:
    """Whatever stumbles over the damage says that it is one, and what to do."""
    book = harmed(sample, tmp_path, DAMAGES[what][0])
    for words in LISTINGS:
        done = ran(book, *words)
        assert "Traceback" not in done.stderr
        assert done.returncode in {0, 1}
        if done.returncode:
            assert "colony book check" in done.stderr
            assert done.stderr.count("\n") == 1


def test_an_act_without_a_moment_is_said(sample: Path, ran: Ran, tmp_path: Path) -> None:
    """A damaged entry of the journal stops what reads it, in a sentence, and no more."""
    book = harmed(sample, tmp_path, "UPDATE journal SET at = 'then' WHERE id = 2")
    assert "act 2 of the journal" in sentence(ran(book, "book", "history"), 1)
    assert "act 2 of the journal" in sentence(ran(book, "animal", "edit", "Alma", "--name", "A"), 1)
    checked = ran(book, "book", "check")
    assert (checked.returncode, checked.stderr) == (1, "")
    assert "act 2 of the journal" in checked.stdout
    assert ran(book, "animal", "list").returncode == 0


def test_a_process_of_its_own_says_the_same(sample: Path, tmp_path: Path, ran: Ran) -> None:
    """What is asked of the program's words above holds for the installed program."""
    book = harmed(sample, tmp_path, DAMAGES["role"][0])
    environment = os.environ | {"PYTHONPATH": str(ROOT), "COLONY_BOOK": str(book)}
    for words in (("book", "check"), ("book", "undo", HUGE)):
        done = subprocess.run(
            [sys.executable, "-m", "colony", *words],
            env=environment,
            capture_output=True,
            text=True,
            check=False,
            stdin=subprocess.DEVNULL,
            timeout=120,
        )
        assert Done(done.returncode, done.stdout, done.stderr) == ran(book, *words)
        assert done.returncode


def test_an_export_is_not_strewn_among_other_files(sample: Path, ran: Ran, tmp_path: Path) -> None:
    """Only a new folder, an empty one, or with --yes an earlier export is written in."""
    (tmp_path / "mine.txt").write_text("kept", encoding="utf-8")
    for more in ((), ("--yes",)):
        told = sentence(ran(sample, "book", "export", str(tmp_path), *more), 1)
        assert "not there yet" in told
    assert [path.name for path in tmp_path.iterdir()] == ["mine.txt"]
    out = str(tmp_path / "out")
    assert ran(sample, "book", "export", out).returncode == 0
    assert "--yes" in sentence(ran(sample, "book", "export", out), 1)
    assert ran(sample, "book", "export", out, "--yes").returncode == 0
