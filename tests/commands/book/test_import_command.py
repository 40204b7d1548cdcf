"""`book import`, `book export` and `sample` as a script sees them."""

import json
import shutil
from pathlib import Path

import pytest

from colony.commands.cli.failures import run


@pytest.fixture
def book(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """The place of a book that commands use."""
    path = tmp_path / "book.colony"
    monkeypatch.setenv("COLONY_BOOK", str(path))
    return path


@pytest.fixture
def begun_book(book: Path, begun: Path) -> Path:
    """A book that has just begun at that place."""
    return Path(shutil.copy(begun, book))


def sheet(folder: Path, text: str) -> str:
    """A file of this text."""
    path = folder / "sheet.csv"
    path.write_text(text, "utf-8")
    return str(path)


def test_the_answer_keeps_its_contract(
    book: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """One JSON document with the agreed keys; exit 1 while faults stand and nothing was written."""
    path = sheet(tmp_path, "tag,sex,shoe\nA1,F,9\nA2,lady,9\n")
    assert run(["book", "import", path, "--json"]) == 1
    answer = json.loads(capsys.readouterr().out)
    assert (answer["added"], answer["updated"], answer["skipped"]) == (0, 0, 0)
    (error,) = answer["errors"]
    assert error.keys() >= {"line", "column", "value", "problem"}
    assert (error["line"], error["column"], error["value"]) == (3, "sex", "lady")
    assert answer["ignored"] == ["shoe"]
    assert run(["book", "import", path, "--json", "--skip-bad"]) == 0
    assert json.loads(capsys.readouterr().out)["added"] == 1
    assert book.exists()


def test_a_fault_is_shown_with_its_line_and_without_markup_or_escape_codes(
    book: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """A cell such as [red] or one with ESC in it is shown as text, never obeyed."""
    assert not book.exists()
    path = sheet(tmp_path, "tag,sex\nA1,[red]\nA2,\x1b[31m\n")
    assert run(["book", "import", path]) == 1
    shown = capsys.readouterr()
    assert "[red]" in shown.out
    assert "\x1b" not in shown.out + shown.err
    assert "Faults: 2; nothing was written" in shown.err


def test_a_fault_names_the_option_that_puts_it_right(
    book: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """A day that reads two ways says what to type, in the table and in the document alike."""
    assert not book.exists()
    path = sheet(tmp_path, "tag,sex,born\nA1,F,03/04/2020\n")
    assert run(["book", "import", path, "--json"]) == 1
    (error,) = json.loads(capsys.readouterr().out)["errors"]
    assert error.keys() == {"file", "line", "column", "value", "problem"}
    way = "(repeat with --date-order dmy, or --date-order mdy)."
    assert error["problem"].endswith(way)
    assert run(["book", "import", path]) == 1
    assert "--date-order mdy" in " ".join(capsys.readouterr().out.split())


def test_a_sheet_that_contradicts_the_book_names_the_commands_that_would_change_it(
    begun_book: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Another sex and another tank; once they were typed, the same sheet is taken in."""
    assert begun_book.exists()
    assert run(["animal", "add", "A1", "--species", "motoro", "--sex", "F"]) == 0
    assert run(["tank", "system", "S1", "--volume", "2000L"]) == 0
    for tank in ("T1", "T2"):
        size = ["--length", "240cm", "--width", "120cm"]
        assert run(["tank", "add", tank, "--system", "S1", *size]) == 0
    assert run(["tank", "move", "A1", "T1", "--anyway"]) == 0
    path = sheet(tmp_path, "tag,sex,tank\na1,M,t2\n")
    capsys.readouterr()
    assert run(["book", "import", path, "--json"]) == 1
    problems = {e["column"]: e["problem"] for e in json.loads(capsys.readouterr().out)["errors"]}
    assert problems["sex"].endswith("or the book (colony animal edit A1 --sex M).")
    assert problems["tank"].endswith("or move it (colony tank move A1 T2).")
    assert run(["animal", "edit", "A1", "--sex", "M"]) == 0
    assert run(["tank", "move", "A1", "T2", "--anyway"]) == 0
    assert run(["book", "import", path]) == 0


def test_a_finding_names_the_command_that_mends_it(
    book: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """The document of a check keeps its keys, and `mend` can be typed."""
    assert run(["animal", "add", "A1", "--species", "motoro", "--sex", "F"]) == 0
    capsys.readouterr()
    assert run(["book", "check", "--json"]) == 0
    (finding,) = json.loads(capsys.readouterr().out)
    assert finding.keys() == {"check", "wrong", "where", "problem", "level", "accepted", "mend"}
    assert finding["mend"] == "colony tank move A1 TANK"
    assert book.exists()


def test_a_dry_run_counts_and_writes_nothing(
    begun_book: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """The same call without --dry-run then does what was said."""
    assert run(["animal", "add", "Alma"]) == 0
    before = begun_book.read_bytes()
    path = sheet(tmp_path, "tag,dam\nNew,Alma\n")
    assert run(["book", "import", path, "--dry-run"]) == 0
    assert "1 would be added" in capsys.readouterr().out
    assert begun_book.read_bytes() == before


@pytest.mark.parametrize(
    ("arguments", "code"),
    [
        (["book", "import", "none.csv"], 2),
        (["book", "import", "sheet.csv", "--date-order", "ymd"], 2),
        (["book", "import", "sheet.csv", "--map", "shoe=tag"], 2),
        (["book", "export", "sheet.csv"], 1),
        (["sample", "sheet.csv"], 1),
    ],
)
def test_wrong_use_is_one_sentence_and_its_exit_code(
    begun_book: Path,
    tmp_path: Path,
    capsys: pytest.CaptureFixture[str],
    arguments: list[str],
    code: int,
) -> None:
    """2 for wrong use, 1 for a refusal; one line on stderr, nothing on stdout."""
    assert begun_book.exists()
    path = sheet(tmp_path, "tag\nA1\n")
    capsys.readouterr()
    assert run([path if word == "sheet.csv" else word for word in arguments]) == code
    shown = capsys.readouterr()
    assert shown.out == ""
    assert shown.err.startswith("colony: ")
    assert shown.err.count("\n") == 1


def test_export_and_import_make_the_same_book(
    book: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    """What one machine exports, another one imports."""
    assert run(["sample", str(book), "--json"]) == 0
    made = json.loads(capsys.readouterr().out)
    assert run(["book", "export", str(tmp_path / "out")]) == 0
    monkeypatch.setenv("COLONY_BOOK", str(tmp_path / "other.colony"))
    capsys.readouterr()
    assert run(["book", "import", str(tmp_path / "out"), "--json"]) == 0
    assert json.loads(capsys.readouterr().out)["added"] == made["rows"]


def test_a_dry_run_needs_no_book(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """A breeder tries the spreadsheet before there is a book, and none is begun by that."""
    sheet = tmp_path / "herd.csv"
    sheet.write_text("tag,sire,dam\nAlma,Bruno,Caro\n", "utf-8")
    monkeypatch.setenv("COLONY_BOOK", str(tmp_path / "book.colony"))
    assert run(["book", "import", str(sheet), "--dry-run"]) == 0
    said = capsys.readouterr()
    assert said.out.startswith("3 would be added")
    assert "no book yet" in said.err
    assert [one.name for one in tmp_path.iterdir()] == ["herd.csv"]
