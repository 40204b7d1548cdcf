"""Files of delimited cells, whoever wrote them."""

from pathlib import Path

import pytest

from colony.exchange.text.content import MOST_MEGABYTES
from colony.exchange.text.delimited import LONGEST_CELL, read_table
from colony.refusals.base import Refusal
from colony.refusals.exchange import (
    BrokenQuotes,
    CellTooLong,
    FileEmpty,
    FileTooLarge,
    NoSuchFile,
    NotAColonyFolder,
    NotPlainText,
)

LINES = "tag;name\nA1;Zoë\nA2;Ærø\n"


def write(folder: Path, content: bytes) -> Path:
    """A file of these bytes."""
    path = folder / "animals.csv"
    path.write_bytes(content)
    return path


@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "cp1252", "latin-1", "utf-16"])
def test_every_usual_encoding_reads_the_same(tmp_path: Path, encoding: str) -> None:
    """Accents survive, whichever program saved the sheet (bytes made by the codecs of Python)."""
    table = read_table(write(tmp_path, LINES.encode(encoding)))
    assert [row.cells for row in table.rows] == [("A1", "Zoë"), ("A2", "Ærø")]
    assert table.header.cells == ("tag", "name")


@pytest.mark.parametrize("delimiter", [",", ";", "\t"])
@pytest.mark.parametrize("end", ["\n", "\r\n", "\r"])
def test_delimiter_and_line_ends_are_found(tmp_path: Path, delimiter: str, end: str) -> None:
    """Commas, semicolons and tabs, and the line ends of every system, need no option."""
    text = end.join([f"tag{delimiter}note", f'A1{delimiter}"x{delimiter}y"', ""])
    table = read_table(write(tmp_path, text.encode()))
    assert [row.cells for row in table.rows] == [("A1", f"x{delimiter}y")]


def test_cells_quoted_as_rfc_4180_says_are_read(tmp_path: Path) -> None:
    """Rules 5 to 7 of RFC 4180 (Shafranovich 2005), section 2, with its own examples."""
    text = '"aaa","b\r\nbb","ccc"\r\nzzz,yyy,xxx\r\n"aaa","b""bb","ccc"\r\n'
    table = read_table(write(tmp_path, text.encode()))
    assert table.header.cells == ("aaa", "b\nbb", "ccc")
    assert [row.cells for row in table.rows] == [("zzz", "yyy", "xxx"), ("aaa", 'b"bb', "ccc")]


def test_bytes_that_windows_1252_leaves_open_stay_what_they_are(tmp_path: Path) -> None:
    """They are control characters in Latin-1, which no cell may hold, and not a guess."""
    table = read_table(write(tmp_path, b"tag,name\nA1,Zo\xeb\nA2,\x81\n"))
    assert [row.cells for row in table.rows] == [("A1", "Zo\xeb"), ("A2", "\x81")]


def test_lines_are_counted_as_an_editor_does(tmp_path: Path) -> None:
    """Blank lines and cells over two lines do not shift the line that a fault names."""
    text = 'sep=;\n\ntag;note\nA1;"two\nlines"\n\n;\nA2;x\n'
    table = read_table(write(tmp_path, text.encode()))
    assert [(row.line, row.cells[0]) for row in table.rows] == [(4, "A1"), (8, "A2")]


@pytest.mark.parametrize(
    ("content", "refusal"),
    [
        (b"", FileEmpty),
        (b"\n \n;;\n", FileEmpty),
        (b"PK\x03\x04rest of a workbook", NotPlainText),
        (b"tag,name\nA1,\x00\n", NotPlainText),
        (b"\xef\xbb\xbftag\n\xff\n", NotPlainText),
        (b'tag,name\nA1,"never closed\nA2,b\n', BrokenQuotes),
        (b"tag,name\nA1," + b"x" * (LONGEST_CELL + 1), CellTooLong),
        (b"tag,name\nA1," + b"x" * 200_000, CellTooLong),
    ],
    ids=str.split("empty blank workbook binary broken quotes long longest"),
)
def test_what_cannot_be_told_apart_is_refused_in_one_sentence(
    tmp_path: Path, content: bytes, refusal: type[Refusal]
) -> None:
    """A file that is no sheet is refused as a whole, and never with a traceback."""
    with pytest.raises(refusal) as refused:
        read_table(write(tmp_path, content))
    assert "\n" not in refused.value.sentence


def test_a_missing_file_a_folder_and_a_huge_file_are_refused(tmp_path: Path) -> None:
    """The path itself is looked at before anything is read."""
    with pytest.raises(NoSuchFile):
        read_table(tmp_path / "none.csv")
    with pytest.raises(NotAColonyFolder):
        read_table(tmp_path)
    huge = tmp_path / "huge.csv"
    with huge.open("wb") as file:
        file.truncate(MOST_MEGABYTES * 2**20 + 1)
    with pytest.raises(FileTooLarge):
        read_table(huge)
