"""Read a file of delimited cells: commas, semicolons or tabs, quoted or not."""

import csv
import io
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from colony.exchange.text.content import read_content
from colony.exchange.text.encodings import decode
from colony.exchange.text.inert import undo_inert
from colony.refusals.exchange import (
    BrokenQuotes,
    CellTooLong,
    FileEmpty,
)

LONGEST_CELL = 8_000
_DELIMITERS = ",;\t"


@dataclass(frozen=True)
class Row:
    """One row of cells, stripped, and the line of the file that it begins on."""

    line: int
    cells: tuple[str, ...]


@dataclass(frozen=True)
class Table:
    """A file as its headings and its rows that are not empty."""

    path: str
    header: Row
    rows: tuple[Row, ...]

    @property
    def name(self) -> str:
        """The file's own name."""
        return Path(self.path).name


def read_table(path: Path) -> Table:
    """Read a delimited file with one line of headings.

    Raises
    ------
    NoSuchFile, NotAColonyFolder, FileNotReadable, FileTooLarge, FileEmpty
        There is nothing to read.
    NotPlainText, BrokenQuotes, CellTooLong
        What there is cannot be told apart into cells.
    """
    text = decode(read_content(path), str(path))
    delimiter, text, skipped = _delimiter(text)
    rows = _rows(text, delimiter, str(path), skipped)
    header = next(rows, None)
    if header is None:
        raise FileEmpty(str(path))
    return Table(str(path), header, tuple(rows))


def _delimiter(text: str) -> tuple[str, str, int]:
    """Choose what parts most cells of the first line; a ``sep=;`` line says it outright."""
    first, _, rest = text.partition("\n")
    declared = first.strip().removeprefix("sep=")
    if first.startswith("sep=") and declared in (*_DELIMITERS, ""):
        return declared or "\t", rest, 1
    heading = next((line for line in text.splitlines() if line.strip()), "")
    cells = {mark: next(csv.reader([heading], delimiter=mark), []) for mark in _DELIMITERS}
    return max(_DELIMITERS, key=lambda mark: len(cells[mark])), text, 0


def _rows(text: str, delimiter: str, path: str, skipped: int) -> Iterator[Row]:
    reader = csv.reader(io.StringIO(text, newline=""), delimiter=delimiter, strict=True)
    begins = 1
    try:
        for cells in reader:
            if any(cell.strip() for cell in cells):
                yield Row(begins + skipped, tuple(_cell(c, path, begins + skipped) for c in cells))
            begins = reader.line_num + 1
    except csv.Error as broken:
        if "limit" in str(broken):
            raise CellTooLong(path, begins + skipped, LONGEST_CELL) from broken
        raise BrokenQuotes(path, begins + skipped) from broken


def _cell(cell: str, path: str, line: int) -> str:
    if len(cell) > LONGEST_CELL:
        raise CellTooLong(path, line, LONGEST_CELL)
    return undo_inert(cell.replace("\r\n", "\n").strip(" \n\N{NO-BREAK SPACE}"))
