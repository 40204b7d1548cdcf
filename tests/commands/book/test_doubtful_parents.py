"""A doubt or a slip in a parent's cell makes no animal: `book import` lists it as a fault."""

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from colony.commands.cli.failures import run

HERD = """tag,sex,born,dam,sire
Alma,F,2018,,
Bruno,M,2018,,
B7,M,2020,Alma,Bruno
B8,M,2020,Alma,Bruno
C1,F,2021,Alma,Bruno
"""

Imported = Callable[..., Any]


@pytest.fixture
def imported(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> Imported:
    """Import a sheet by the command into a book that has the herd; the answer and the exit code."""
    monkeypatch.setenv("COLONY_BOOK", str(tmp_path / "book.colony"))
    path = tmp_path / "sheet.csv"

    def take(text: str, *words: str) -> Any:  # noqa: ANN401 - any JSON document
        path.write_text(text, "utf-8")
        code = run(["book", "import", str(path), *words, "--json"])
        return json.loads(capsys.readouterr().out), code

    take(HERD)
    return take


def pup(*, dam: str = "C1", sire: str = "B7") -> str:
    """A sheet of one pup."""
    return f'tag,born,dam,sire\nD1,2023,"{dam}","{sire}"\n'


@pytest.mark.parametrize(
    ("cell", "near"),
    [
        ("B7 or B8?", ["B8"]),
        ("B7 (prob. 70%) B8", ["B7", "B8"]),
        ("B7 B8", ["B7", "B8"]),
        ("B7?=0.5 B8=0.5", ["B7"]),
        ("b-07", ["B7"]),
        ("B 7", ["B7"]),
        ("B7 I think", ["B7"]),
        ("maybe Bruno", ["Bruno"]),
        ("Brunno", ["Bruno"]),
        ("Burno", ["Bruno"]),
        ("B7/?", []),
        ("wild caught", []),
        ("an unknown male", []),
        ("\N{EM DASH}", []),
    ],
)
def test_a_doubtful_sire_is_a_fault_that_names_the_nearest_tags(
    imported: Imported, cell: str, near: list[str]
) -> None:
    """Line, column, cell and what is near; nothing is written."""
    answer, code = imported(pup(sire=cell))
    (error,) = answer["errors"]
    assert (code, answer["added"]) == (1, 0)
    assert (error["line"], error["column"], error["value"]) == (2, "sire", cell)
    hint = error["problem"].partition("did you mean ")[2].partition("?)")[0]
    assert hint == " or ".join(f"'{tag}'" for tag in near)
    assert "row of its own" in error["problem"]


@pytest.mark.parametrize("cell", ["C1 or C2", "C1?", "C-1", "C1/Alma", "Allma (C1)"])
def test_a_doubtful_dam_is_a_fault(imported: Imported, cell: str) -> None:
    """There is one dam, and no way to write a doubt."""
    answer, code = imported(pup(dam=cell))
    assert code == 1
    assert [(one["line"], one["column"]) for one in answer["errors"]] == [(2, "dam")]
    assert "did you mean" in answer["errors"][0]["problem"]


@pytest.mark.parametrize(
    ("cell", "ancestors"),
    [
        ("B7=0.7 B8=0.3", 0),
        ("B7=70%, B8=30%", 0),
        ("B7/B8", 0),
        ("B7 or B8", 0),
        ("b7", 0),
        ("B9", 1),
        ("B77", 1),
        ("Bruno 2", 1),
        ("Bruno II", 1),
        ("Bo/Cy", 2),
        ("B9=0.4 B10=0.6", 2),
        ("unknown", 0),
    ],
)
def test_sires_that_are_well_written_are_taken(
    imported: Imported, cell: str, ancestors: int
) -> None:
    """Shares, strokes and "or" between tags, the next number of a series, a new name."""
    answer, code = imported(pup(sire=cell))
    assert (code, answer["errors"]) == (0, [])
    assert (answer["added"], answer["ancestors"]) == (1 + ancestors, ancestors)


def test_a_name_that_looks_odd_is_taken_where_it_has_a_row(imported: Imported) -> None:
    """Whoever is really called so is not shut out."""
    text = "tag,sex,born,dam,sire\nB8?,M,2019,,\nB-7,M,2019,,\nD1,,2023,C1,B8?\nD2,,2023,C1,B-7\n"
    answer, code = imported(text)
    assert (code, answer["errors"], answer["added"], answer["ancestors"]) == (0, [], 4, 0)


def test_two_ways_to_write_one_ancestor_are_a_fault_at_the_second(imported: Imported) -> None:
    """Two half sibs by one sire would be strangers; a dam called nearly like a sire is another."""
    text = "tag,born,dam,sire\nD1,2023,C1,Z 1\nD2,2023,C1,Z-01\nD3,2023,Orsola,Orsolo\n"
    answer, _ = imported(text)
    assert [(one["line"], one["column"]) for one in answer["errors"]] == [(3, "sire")]
    assert "did you mean 'Z 1'?" in answer["errors"][0]["problem"]


def test_bad_rows_are_left_out_and_f_of_the_others_is_right(
    imported: Imported, capsys: pytest.CaptureFixture[str]
) -> None:
    """Full sibs' pups have F 0.25 (Wright 1922, Am. Nat. 56:330-338), with the sire in doubt too."""
    text = "tag,born,dam,sire\nD1,2023,C1,B7 or B8?\nD2,2023,C1,B7 or B8\n"
    answer, code = imported(text, "--skip-bad")
    assert (code, answer["added"], answer["ancestors"]) == (0, 1, 0)
    assert run(["pedigree", "inbreeding", "D2", "--json"]) == 0
    (shown,) = json.loads(capsys.readouterr().out)
    assert shown["inbreeding"] == 0.25


def test_a_folder_makes_no_animal_of_a_parents_cell(
    imported: Imported, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """A dam, a sire or a possible sire without a row is a fault there, the nearest tag named."""
    imported(pup(sire="B7=0.7 B8=0.3"))
    out = tmp_path / "out"
    assert run(["book", "export", str(out)]) == 0
    animals = out / "animals.csv"
    sound = animals.read_text("utf-8")
    for old, new in (("B7=0.7 B8=0.3", "B7=0.7 B8?=0.3"), (",C1,", ",C 1,")):
        assert old in sound
        animals.write_text(sound.replace(old, new), "utf-8")
        capsys.readouterr()
        assert run(["book", "import", str(out), "--json", "--book", str(tmp_path / "new")]) == 1
        (error,) = json.loads(capsys.readouterr().out)["errors"]
        assert "did you mean" in error["problem"]


@pytest.mark.parametrize(
    "words",
    [
        ["animal", "add", "D1", "--dam", "C1", "--sire", "B8?"],
        ["animal", "add", "D1", "--dam", "C 1"],
        ["animal", "edit", "C1", "--sire", "Brunno"],
        ["litter", "record", "--dam", "C1", "--sire", "B7 or B8", "--pups", "1F"],
    ],
)
def test_no_command_makes_an_animal_of_a_parents_name(
    imported: Imported, capsys: pytest.CaptureFixture[str], words: list[str]
) -> None:
    """It is refused, and the herd is as it was."""
    assert callable(imported)
    assert run(words) != 0
    assert "There is no animal" in capsys.readouterr().err
    assert run(["animal", "list", "--json"]) == 0
    listed = json.loads(capsys.readouterr().out)
    assert {one["tag"] for one in listed} == {"Alma", "Bruno", "B7", "B8", "C1"}
