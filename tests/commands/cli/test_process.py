"""The program as a process: what it loads, and how it speaks to pipes and terminals."""

import os
import subprocess
import sys

import pytest
from checkout import ROOT
from farm import Farm
from telling_farm import telling_farm

COLONY = [sys.executable, "-m", "colony"]
SQL = {"sqlmodel", "sqlalchemy", "numpy", "networkx", "scipy", "textual", "pydantic", "alembic"}
HEAVY = {"scipy", "networkx", "textual", "alembic"}


@pytest.fixture(scope="module")
def telling(tmp_path_factory: pytest.TempPathFactory) -> Farm:
    """A farm to ask about."""
    return telling_farm(tmp_path_factory.mktemp("process") / "farm.colony")


def started(farm: Farm, *words: str, **more: str) -> subprocess.CompletedProcess[str]:
    """Run the program in a process of its own."""
    environment = os.environ | {"PYTHONPATH": str(ROOT), "COLONY_BOOK": str(farm.path)} | more
    return subprocess.run(
        [*COLONY, *words], env=environment, capture_output=True, text=True, check=False
    )


def loaded(farm: Farm, *words: str, **more: str) -> set[str]:
    """Top-level modules that a command loaded."""
    done = started(farm, *words, PYTHONPROFILEIMPORTTIME="1", **more)
    lines = [line for line in done.stderr.splitlines() if line.startswith("import time:")]
    return {line.rpartition("|")[2].strip().partition(".")[0] for line in lines}


@pytest.mark.parametrize(
    "words", [["--help"], ["litter", "--help"], ["litter", "record", "--help"]]
)
def test_help_loads_no_sql(telling: Farm, words: list[str]) -> None:
    """Help is there at once: nothing of the book is loaded, nor what looks at values."""
    assert not SQL & loaded(telling, *words)


def test_completion_loads_no_sql_and_names_the_tags(telling: Farm) -> None:
    """Of the book in the environment, or of the one that stands on the line."""
    asked = {
        "_COLONY_COMPLETE": "complete_bash",
        "COMP_WORDS": "colony animal show 25",
        "COMP_CWORD": "3",
    }
    assert not SQL & loaded(telling, **asked)
    done = started(telling, **asked)
    assert done.stdout.split() == ["25-01-1", "25-01-2", "25-01-3"]
    asked |= {"COMP_WORDS": f"colony --book {telling.path} animal show Al", "COMP_CWORD": "5"}
    assert started(telling, **asked | {"COLONY_BOOK": "nowhere"}).stdout.split() == ["Alma"]


@pytest.mark.parametrize(
    "words",
    [
        [],
        ["animal", "list"],
        ["litter", "due"],
        ["pup", "ready"],
        ["tank", "list"],
        ["litter", "list"],
    ],
)
def test_a_plain_listing_loads_only_what_it_needs(telling: Farm, words: list[str]) -> None:
    """No solver, no graph library, no screen, no schema scripts."""
    assert not HEAVY & loaded(telling, *words)


def test_a_listing_builds_no_table_that_it_does_not_read() -> None:
    """Each table takes two milliseconds to build; care, water, vets and the journal are not needed."""
    asked = "import colony.acts.animals.listing; from sqlmodel import SQLModel; print(*SQLModel.metadata.tables)"
    environment = os.environ | {"PYTHONPATH": str(ROOT)}
    done = subprocess.run(
        [sys.executable, "-c", asked], env=environment, capture_output=True, text=True, check=True
    )
    built = set(done.stdout.split())
    assert "animal" in built
    assert not {"care_done", "food", "water_test", "vet_visit", "journal", "feeding"} & built


def test_a_pipe_that_closes_early_is_no_error(telling: Farm) -> None:
    """`colony animal list | head -1` says nothing but its line."""
    command = f"{sys.executable} -m colony animal list | head -n 1"
    environment = os.environ | {"PYTHONPATH": str(ROOT), "COLONY_BOOK": str(telling.path)}
    done = subprocess.run(
        ["bash", "-c", command], env=environment, capture_output=True, text=True, check=False
    )
    assert done.stderr == ""
    assert done.stdout.startswith("Tag")


def test_a_terminal_without_our_letters_is_no_error(telling: Farm) -> None:
    """What it cannot show is escaped; JSON stays the same document."""
    telling.write("UPDATE animal SET name = 'Zo\u00eb \u2640' WHERE tag = 'Alma'")
    for words in (["animal", "list"], ["animal", "show", "Alma"], ["animal", "show", "Zo\u00eb"]):
        done = started(telling, *words, PYTHONIOENCODING="ascii")
        assert "Traceback" not in done.stderr
    done = started(telling, "animal", "show", "Alma", "--json", PYTHONIOENCODING="ascii")
    assert "\\u00eb" in done.stdout


def test_colour_is_not_used_where_it_is_not_wanted(telling: Farm) -> None:
    """NO_COLOR is honoured, also where colour is forced."""
    done = started(telling, "animal", "list", NO_COLOR="1", FORCE_COLOR="1", COLUMNS="40")
    assert "\x1b[3" not in done.stdout
    assert done.returncode == 0


def test_wrong_words_leave_with_2_and_point_to_the_help(telling: Farm) -> None:
    """One line on stderr, nothing on stdout."""
    for words in (
        ["animal", "lst"],
        ["animal", "list", "--limt", "3"],
        ["animal", "list", "--limit", "x"],
    ):
        done = started(telling, *words)
        assert (done.returncode, done.stdout) == (2, "")
        assert done.stderr.startswith("colony: ")
        assert "--help" in done.stderr
        assert "Traceback" not in done.stderr
        assert "?:" not in done.stderr
    nearest = started(telling, "animal", "lst").stderr
    assert nearest.endswith("did you mean 'list': see colony animal --help.\n")
