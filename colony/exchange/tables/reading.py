"""Read the cells of a file as the rows of a noun; all that cannot be read is listed, none raised."""

from collections.abc import Callable, Collection, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from colony.exchange.folder.noun import NounRow
from colony.exchange.text.delimited import Row, Table
from colony.exchange.text.faults import Fault
from colony.refusals.base import WrongUse
from colony.refusals.cells import MoreCellsThanHeadings

NOTHING = object()
"""What a reader returns for a cell that says nothing: the row does not have that field."""


@dataclass(frozen=True)
class Source:
    """A file of rows, and the heading that it has for each field where that is another."""

    file: str
    headings: Mapping[str, str] = field(default_factory=dict)

    def fault(self, row: NounRow, name: str, wrong: WrongUse) -> Fault:
        """A fault of a row, in the cell of a field."""
        cell = row.cells.get(name, "")
        heading = self.headings.get(name, name)
        return Fault(self.file, row.line, heading, cell, wrong.sentence, wrong.remedies)


@dataclass(frozen=True)
class CellReader:
    """How the cells of one field are read, and where they stand; None if the file has none.

    `read` raises `WrongUse`, with a sentence that says what could be read.
    """

    name: str
    place: int | None
    read: Callable[[str], Any]


def read_rows(
    source: Source,
    table: Table,
    readers: Sequence[CellReader],
    needed: Collection[str],
    progress: Callable[[int], None] = lambda _done: None,
) -> tuple[list[NounRow], list[Fault]]:
    """Read every row, and list every cell that cannot be read or has no heading.

    Parameters
    ----------
    needed
        The fields without which a row is left out.
    progress
        Called with how many rows are read.
    """
    faults: list[Fault] = []
    found = []
    for done, raw in enumerate(table.rows, 1):
        row = _read_row(source, raw, len(table.header.cells), readers, faults)
        if all(name in row.values for name in needed):
            found.append(row)
        progress(done)
    return found, faults


def _read_row(
    source: Source, raw: Row, width: int, readers: Sequence[CellReader], faults: list[Fault]
) -> NounRow:
    beyond = [cell for cell in raw.cells[width:] if cell]
    if beyond:
        wrong = MoreCellsThanHeadings(len(raw.cells), width)
        faults.append(Fault(source.file, raw.line, "", beyond[0], wrong.sentence))
    values: dict[str, Any] = {}
    cells: dict[str, str] = {}
    row = NounRow(raw.line, values, cells)
    there = len(raw.cells)
    for reader in readers:
        cell = raw.cells[reader.place] if reader.place is not None and reader.place < there else ""
        if cell:
            cells[reader.name] = cell
        try:
            value = reader.read(cell)
        except WrongUse as unreadable:
            faults.append(source.fault(row, reader.name, unreadable))
            continue
        if value is NOTHING:
            cells.pop(reader.name, None)
        else:
            values[reader.name] = value
    return row
