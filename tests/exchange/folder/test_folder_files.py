"""A colony as a folder of plain files."""

import csv
import io
import tomllib
from datetime import date, timedelta
from pathlib import Path
from unicodedata import normalize

import pytest
from hypothesis import given
from hypothesis import strategies as st

from colony.exchange.folder.colony_toml import FILE, ColonyHeading, read_heading, write_heading
from colony.exchange.folder.folder import ColonyFolder, folder_texts, read_folder
from colony.exchange.folder.noun import NounRow, SpeciesValues
from colony.exchange.folder.nouns import BY_NAME, NOUNS
from colony.exchange.folder.shifting import shifted
from colony.exchange.text.writing import write_file, write_files
from colony.notation.days import Day
from colony.refusals.exchange import CannotWrite, NotAColonyFolder, NotAnExport, WouldOverwrite

TEXTS = st.text(
    st.characters(
        codec="utf-8", exclude_categories=("Cc", "Cf", "Cs", "Zs", "Zl", "Zp", "Cn", "Co")
    ),
    min_size=1,
    max_size=12,
)
AS_OF = date(2026, 3, 2)


@given(TEXTS, TEXTS, st.floats(0.001, 1e6))
def test_a_heading_is_toml_and_is_read_back(key: str, text: str, number: float) -> None:
    """Any setting, species and number survives; the reader of the standard library takes it."""
    species = {text: SpeciesValues(text, None, {"rest_days": (number, text)})}
    heading = ColonyHeading(AS_OF, {"pup_tag": key}, species)
    written = write_heading(heading)
    assert tomllib.loads(written)["as_of"] == AS_OF
    assert read_heading(written, "x") == heading


@pytest.mark.parametrize(
    "text",
    [
        "",
        "format = 1",
        "format = 2\nas_of = 2026-03-02",
        "format = 1\nas_of = 'March'",
        "format = 1\nas_of = 2026-03-02\n[species.x]\nrest_days = 3",
        "format = 1\nas_of = 2026-03-02\nsettings = 4",
        "not toml",
    ],
)
def test_a_broken_heading_is_refused_in_one_sentence(text: str) -> None:
    """Whatever stands in colony.toml, it is no traceback."""
    with pytest.raises(NotAColonyFolder) as refused:
        read_heading(text, "x")
    assert "colony.toml" in refused.value.sentence


def animal(**values: object) -> NounRow:
    """One row of animals, with what an empty cell means for the rest."""
    return NounRow(0, {c.name: c.empty for c in BY_NAME["animals"].columns} | values)


def read_animals_of(folder: Path, rows: tuple[NounRow, ...]) -> ColonyFolder:
    """Write a folder of these animals and read it again."""
    tables = {noun.name: () for noun in NOUNS} | {"animals": rows}
    write_files(
        folder, folder_texts(ColonyHeading(AS_OF, {}, {}), tables), sign=FILE, overwrite=True
    )
    return read_folder(folder)


@given(name=TEXTS, note=TEXTS)
def test_any_name_and_note_survive_the_folder(
    tmp_path_factory: pytest.TempPathFactory, name: str, note: str
) -> None:
    """What is written is read back, formulas and quotation marks too, and no cell would run."""
    row = animal(tag="A1", name=f"={name}", note=note, born=Day(date(2024, 5, 1), "month"))
    folder = tmp_path_factory.mktemp("out")
    read = read_animals_of(folder, (row,))
    assert not read.faults
    written = (folder / "animals.csv").read_text("utf-8")
    cells = [cell for line in csv.reader(io.StringIO(written)) for cell in line]
    assert not [cell for cell in cells if cell.startswith(("=", "+", "-", "@"))]
    (back,) = read.tables["animals"]
    composed = {key: normalize("NFC", row.values[key]) for key in ("name", "note")}
    assert back.values == dict(row.values) | composed


def test_an_old_colony_is_moved_to_another_day(tmp_path: Path) -> None:
    """Every date moves by the same days; a month or year stays the first of one."""
    old = animal(
        tag="A1", born=Day(date(2024, 1, 1), "year"), status="sold", ended_on=date(2025, 1, 31)
    )
    folder = read_animals_of(tmp_path, (old,))
    moved = shifted(folder, AS_OF + timedelta(days=200))
    (row,) = moved.tables["animals"]
    assert row.values["born"] == Day(date(2024, 1, 1), "year")
    assert row.values["ended_on"] == date(2025, 8, 19)
    assert moved.heading.as_of == date(2026, 9, 18)


def test_a_folder_of_something_else_is_refused(tmp_path: Path) -> None:
    """Without its heading, or without a column that it needs, a folder is no colony."""
    with pytest.raises(NotAColonyFolder):
        read_folder(tmp_path)
    (tmp_path / "colony.toml").write_text("format = 1\nas_of = 2026-03-02\n")
    assert not any(read_folder(tmp_path).tables.values())
    (tmp_path / "tanks.csv").write_text("code,role\nN1,breeding\n")
    with pytest.raises(NotAColonyFolder, match="system"):
        read_folder(tmp_path)


def test_nothing_is_replaced_unless_asked(tmp_path: Path) -> None:
    """A file and a folder that are there stay, byte for byte, until overwriting is said."""
    file, folder = tmp_path / "a.csv", tmp_path / "out"
    write_file(file, "one", overwrite=False)
    write_files(folder, {"a": "one"}, sign="a", overwrite=False)
    with pytest.raises(WouldOverwrite):
        write_file(file, "two", overwrite=False)
    with pytest.raises(WouldOverwrite):
        write_files(folder, {"a": "two"}, sign="a", overwrite=False)
    with pytest.raises(WouldOverwrite):
        write_files(file, {"a": "two"}, sign="a", overwrite=True)
    assert (file.read_text(), (folder / "a").read_text()) == ("one", "one")
    (folder / "mine.txt").write_text("kept")
    write_file(file, "two", overwrite=True)
    write_files(folder, {"a": "two"}, sign="a", overwrite=True)
    assert {p.name: p.read_text() for p in folder.iterdir()} == {"a": "two", "mine.txt": "kept"}


def test_no_file_is_strewn_among_others(tmp_path: Path) -> None:
    """A folder of other things stays as it is, whatever is said; an empty one is taken."""
    (tmp_path / "mine.txt").write_text("kept")
    for overwrite in (False, True):
        with pytest.raises(NotAnExport, match="not there yet"):
            write_files(tmp_path, {"a": "one"}, sign="a", overwrite=overwrite)
    assert [path.name for path in tmp_path.iterdir()] == ["mine.txt"]
    (tmp_path / "empty").mkdir()
    write_files(tmp_path / "empty", {"a": "one"}, sign="a", overwrite=False)
    assert [path.name for path in (tmp_path / "empty").iterdir()] == ["a"]


def test_a_failed_write_leaves_nothing_behind(tmp_path: Path) -> None:
    """A text that no file can hold leaves the old file whole and no part of the new one."""
    write_file(tmp_path / "a.csv", "one", overwrite=False)
    with pytest.raises(CannotWrite):
        write_file(tmp_path / "a.csv", "half \ud800", overwrite=True)
    with pytest.raises(CannotWrite):
        write_files(tmp_path / "out", {"a": "fine", "b": "half \ud800"}, sign="a", overwrite=False)
    with pytest.raises(CannotWrite):
        write_file(tmp_path / "no" / "such" / "a.csv", "one", overwrite=False)
    assert [(p.name, p.read_text()) for p in tmp_path.iterdir()] == [("a.csv", "one")]
