"""The program as a process: wrong numbers, deep files and damaged books end in one sentence."""

import os
import sqlite3
import subprocess
import sys
from contextlib import closing
from pathlib import Path

import pytest
from checkout import ROOT

from colony.acts.book.sample import make_sample_book
from colony.screens.frame.session import todays_date

HUGE = "99999999999999999999999"


@pytest.fixture(scope="module")
def sample(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The sample colony, which all tests only read."""
    path = tmp_path_factory.mktemp("sample") / "farm.colony"
    make_sample_book(location=str(path), today=todays_date())
    return path


def ran(book: Path, *words: str) -> subprocess.CompletedProcess[str]:
    """Run the program in a process of its own."""
    environment = os.environ | {"PYTHONPATH": str(ROOT), "COLONY_BOOK": str(book)}
    command = [sys.executable, "-m", "colony", *words]
    return subprocess.run(
        command,
        env=environment,
        capture_output=True,
        text=True,
        check=False,
        stdin=subprocess.DEVNULL,
        timeout=120,
    )


def sentence(book: Path, code: int, *words: str) -> str:
    """The one sentence with which a command is refused, on stderr alone."""
    done = ran(book, *words)
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
        (("pairing", "plan", "--males-max", HUGE), "numbers of a usual size"),
        (("pairing", "plan", "--seed", f"-{HUGE}"), "greater than or equal to 0"),
        (("tank", "outlook", "--weeks", HUGE), "less than or equal to 104"),
    ],
)
def test_a_number_that_cannot_be_meant_is_wrong_use(
    sample: Path, words: tuple[str, ...], right: str
) -> None:
    """Exit code 2, and what would be right."""
    assert right in sentence(sample, 2, *words)


@pytest.mark.parametrize("sales", ["1e-320", "5e-324", "0.001"])
def test_hardly_any_sales_are_no_sales(sample: Path, sales: str) -> None:
    """A pup whose turn comes after the last day of the calendar stays where it is."""
    few, none = (
        ran(sample, "tank", "outlook", "--weeks", "3", "--sales", one) for one in (sales, "0")
    )
    assert (few.returncode, few.stderr) == (0, "")
    assert few.stdout == none.stdout


@pytest.mark.parametrize("deep", ["x = " + "[" * 100_000, "[a]\nx = " + "{a=" * 100_000])
def test_brackets_without_end_are_no_colony(sample: Path, tmp_path: Path, deep: str) -> None:
    """A colony.toml that is nested deeper than anybody reads is refused as what it is."""
    (tmp_path / "colony.toml").write_text(deep, encoding="utf-8")
    assert "colony.toml" in sentence(sample, 2, "book", "import", str(tmp_path))


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
    ("book", "undo"),
    (),
)


@pytest.mark.parametrize("what", DAMAGES)
def test_the_check_of_a_damaged_book_names_the_row(sample: Path, tmp_path: Path, what: str) -> None:
    """Exit code 1 and the rest of the report; a book made anew from the journal is whole."""
    statement, rule = DAMAGES[what]
    book = harmed(sample, tmp_path, statement)
    done = ran(book, "book", "check")
    assert (done.returncode, done.stderr) == (1, "")
    assert f"breaks a rule: {rule}" in done.stdout
    assert "colony book rebuild PATH" in done.stdout
    anew = tmp_path / "anew.colony"
    assert ran(book, "book", "rebuild", str(anew)).returncode == 0
    assert ran(anew, "book", "check").stdout == "Nothing is wrong or odd.\n"


@pytest.mark.parametrize("what", DAMAGES)
def test_a_damaged_book_is_answered_from_or_refused(
    sample: Path, tmp_path: Path, what: str
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


def test_an_act_without_a_moment_is_said(sample: Path, tmp_path: Path) -> None:
    """A damaged entry of the journal stops what reads it, in a sentence, and no more."""
    book = harmed(sample, tmp_path, "UPDATE journal SET at = 'then' WHERE id = 2")
    assert "act 2 of the journal" in sentence(book, 1, "book", "history")
    assert "act 2 of the journal" in sentence(book, 1, "animal", "edit", "Alma", "--name", "A")
    checked = ran(book, "book", "check")
    assert (checked.returncode, checked.stderr) == (1, "")
    assert "act 2 of the journal" in checked.stdout
    assert ran(book, "animal", "list").returncode == 0


def test_an_export_is_not_strewn_among_other_files(sample: Path, tmp_path: Path) -> None:
    """Only a new folder, an empty one, or with --yes an earlier export is written in."""
    (tmp_path / "mine.txt").write_text("kept", encoding="utf-8")
    for more in ((), ("--yes",)):
        told = sentence(sample, 1, "book", "export", str(tmp_path), *more)
        assert "not there yet" in told
    assert [path.name for path in tmp_path.iterdir()] == ["mine.txt"]
    out = str(tmp_path / "out")
    assert ran(sample, "book", "export", out).returncode == 0
    assert "--yes" in sentence(sample, 1, "book", "export", out)
    assert ran(sample, "book", "export", out, "--yes").returncode == 0
