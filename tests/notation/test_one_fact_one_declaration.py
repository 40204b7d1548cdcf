"""A new fact of an animal is three edits: its declaration, its column, its schema script."""

import json
import shutil
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest

import colony
from colony.store.schema.book_version import SCHEMA

PACKAGE = Path(colony.__file__).parent
NEXT = f"{int(SCHEMA) + 1:04d}"

DECLARED = """
    Field("temper", label="Behaviour", help="How it behaves.", headings="mood", option="--mood"),
    Field("spots", "count", help="White spots on its disc."),
"""
COLUMNS = """
    temper: str | None = None
    spots: int | None = None
"""
SCRIPT = f"""
import sqlalchemy as sa
from alembic import op

revision = "{NEXT}"
down_revision = "{SCHEMA}"


def upgrade() -> None:
    op.add_column("animal", sa.Column("temper", sa.String(), nullable=True))
    op.add_column("animal", sa.Column("spots", sa.Integer(), nullable=True))
"""

WORDED_ANEW = {
    "pairings.py": ('label="How"', 'label="By what"'),
    "pups.py": ('hint="if it was weighed"', 'hint="on dry scales"'),
    "health.py": ('help="What was seen."', 'help="What is wrong.", hint="in your words"'),
    "field.py": ('help="A note."', 'help="What else there is."'),
}
"""One declaration in each file that is worded otherwise."""

USE = r"""
import csv, io, json, sys
from contextlib import redirect_stdout
from pathlib import Path

from colony.commands.cli.failures import run


def said(*words, book="a.colony"):
    out = io.StringIO()
    with redirect_stdout(out):
        code = run(["--book", book, *words])
    assert code == 0, (words, code, out.getvalue())
    return out.getvalue()


said("animal", "add", "Alma", "--sex", "F", "--mood", "calm", "--spots", "7")
added = json.loads(said("animal", "show", "Alma", "--json"))
said("animal", "edit", "Alma", "--mood", "")
cleared = json.loads(said("animal", "show", "Alma", "--json"))
Path("sheet.csv").write_text("Tag,Mood,Spots\nAlma,bold,9\n")
said("book", "import", "sheet.csv")
from_sheet = json.loads(said("animal", "show", "Alma", "--json"))
said("book", "export", "out.csv")
said("book", "export", "out")
said("book", "import", "out", book="b.colony")
from_folder = json.loads(said("animal", "show", "Alma", "--json", book="b.colony"))
said("book", "undo", "--yes")
undone = json.loads(said("animal", "show", "Alma", "--json"))
said("book", "check")

from colony.screens.animals.correct_form import CorrectForm
from colony.screens.animals.arrival_form import ArrivalForm
from colony.screens.animals.sections import _marks
from colony.acts.animals.page import show_animal
from colony.store.book import open_book
from datetime import date
from colony.screens.health.hold_form import HoldForm
from colony.screens.pairings.check_form import CheckForm
from colony.screens.pups.widths_form import WidthsForm

with open_book("b.colony").reading() as session:
    page = list(_marks(show_animal(session, tag="Alma", today=date(2026, 9, 17))))
json.dump(
    {
        "help": said("animal", "edit", "--help"),
        "documents": [added, cleared, from_sheet, from_folder, undone],
        "sheet": list(csv.DictReader(Path("out.csv").open())),
        "folder": list(csv.DictReader(Path("out/animals.csv").open())),
        "correct": {field.name: type(field).__name__ for field in CorrectForm.FIELDS},
        "labels": [field.label for field in CorrectForm.FIELDS],
        "page": page,
        "helps": {
            words: said(*words.split(), "--help")
            for words in (
                "pairing sign", "pairing check", "pup measure", "animal hold", "health look",
            )
        },
        "worded": [
            CheckForm.FIELDS[2].label, WidthsForm.FIELDS[2].empty, HoldForm.FIELDS[1].empty
        ],
    },
    sys.stdout,
)
"""


def after(path: Path, line: str, new: str) -> None:
    """Write lines after a line of a file."""
    text = path.read_text("utf-8")
    assert text.count(line) == 1, f"{path} was written otherwise"
    path.write_text(text.replace(line, f"{line}{new}"), "utf-8")


def reword(path: Path, old: str, new: str) -> None:
    """Write one declaration of a file otherwise."""
    text = path.read_text("utf-8")
    assert text.count(old) == 1, f"{path} was written otherwise"
    path.write_text(text.replace(old, new), "utf-8")


@pytest.fixture(scope="module")
def answers(tmp_path_factory: pytest.TempPathFactory) -> Any:  # noqa: ANN401 - a JSON document
    """What a copy of the program answers after the three edits and no other."""
    house = tmp_path_factory.mktemp("house")
    copy = house / "colony"
    shutil.copytree(PACKAGE, copy, ignore=shutil.ignore_patterns("__pycache__"))
    after(copy / "notation/fields/animals.py", "DECISIONS = (", DECLARED)
    after(copy / "records/animals.py", "    line: str | None = None", COLUMNS)
    for file, words in WORDED_ANEW.items():
        reword(copy / "notation/fields" / file, *words)
    (copy / f"store/schema/versions/{NEXT}_temper.py").write_text(SCRIPT, "utf-8")
    done = subprocess.run(
        [sys.executable, "-c", USE], cwd=house, capture_output=True, text=True, check=False
    )
    assert done.returncode == 0, done.stderr
    return json.loads(done.stdout)


def test_a_new_fact_is_an_option_with_its_help(answers: Any) -> None:  # noqa: ANN401 - a JSON document
    """Its own name of the option, or the name of the fact."""
    words = " ".join(answers["help"].split())
    assert "--mood MOOD How it behaves." in words
    assert "--spots" in words


def test_a_new_fact_is_written_cleared_and_taken_back(answers: Any) -> None:  # noqa: ANN401 - the same
    """By options and by a sheet's own heading; undo knows of it, and a folder carries it over."""
    found = [(answer["temper"], answer["spots"]) for answer in answers["documents"]]
    assert found == [("calm", 7), (None, 7), ("bold", 9), ("bold", 9), (None, 7)]


@pytest.mark.parametrize("file", ["sheet", "folder"])
def test_a_new_fact_stands_in_exported_files(answers: Any, file: str) -> None:  # noqa: ANN401 - the same
    """Under its name, in the one sheet and in the folder of the whole colony."""
    [row] = answers[file]
    assert (row["temper"], row["spots"]) == ("bold", "9")


def test_a_new_fact_stands_in_the_form_and_on_the_page(answers: Any) -> None:  # noqa: ANN401 - the same
    """A field of its kind with its label, and a line of the page."""
    assert answers["correct"].items() >= {"temper": "FormField", "spots": "CountField"}.items()
    assert "Behaviour" in answers["labels"]
    assert {"temper bold", "spots 9"} <= set(answers["page"])


@pytest.mark.parametrize("command", ["pairing sign", "pairing check", "pup measure", "health look"])
def test_a_note_is_worded_in_one_place(answers: Any, command: str) -> None:  # noqa: ANN401 - the same
    """Every command that takes one says of it what the catalogue says."""
    assert "--note NOTE What else there is." in " ".join(answers["helps"][command].split())


def test_a_field_is_worded_in_one_place_for_options_and_forms(answers: Any) -> None:  # noqa: ANN401 - the same
    """The forms of a check, of widths and of a hold, and the options of a hold."""
    assert answers["worded"] == ["By what", "on dry scales", "in your words"]
    assert "--why WHY What is wrong. [required]" in " ".join(
        answers["helps"]["animal hold"].split()
    )
