"""A breeder's own sheet of animals: other headings and freer cells for the rows of one noun."""

from collections.abc import Callable, Collection, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any

from colony.exchange.folder.noun import NounRow
from colony.exchange.folder.nouns import BY_NAME
from colony.exchange.sheet.cells import Reading, read_cell, says_nothing
from colony.exchange.sheet.headings import FIELDS, Columns
from colony.exchange.tables.checks import without_repeats
from colony.exchange.tables.reading import NOTHING, CellReader, Source, read_rows
from colony.exchange.tables.sires import read_sires, split_sires
from colony.exchange.text.delimited import Table
from colony.exchange.text.faults import Fault
from colony.notation.fields.animals import ENDINGS, MEASURED, TAG
from colony.notation.fields.field import Field
from colony.refusals.cells import CellNeeded

SHEET = replace(
    BY_NAME["animals"],
    columns=(
        *BY_NAME["animals"].columns,
        *(replace(field, name=field.sheet_name) for field in MEASURED),
    ),
)
"""An animal and what a sheet says beside it; days as `Day`, widths in mm, masses in g."""

_ENDINGS = {field.name: status for status, field in ENDINGS.items()} | {"ended_on": "gone"}


@dataclass(frozen=True)
class AnimalSheet:
    """The rows that have a tag, in file order, each animal once, and every fault of cells and rows.

    A field without a value is absent from a row; an end of whatever kind stands as `status`
    and `ended_on`.
    """

    rows: Sequence[NounRow]
    faults: Sequence[Fault]
    repeats: int
    """Rows about an animal that has one already; they are not in `rows`."""


def source_of(table: Table, columns: Columns) -> Source:
    """The file, with the heading that it has for each field."""
    headings = {field: table.header.cells[place] for field, place in columns.places.items()}
    return Source(table.path, headings)


def read_animals(
    table: Table,
    columns: Columns,
    reading: Reading,
    book_tags: Collection[str],
    progress: Callable[[int], None],
) -> AnimalSheet:
    """Read every row; all that cannot be read is listed, none of it raised.

    Parameters
    ----------
    book_tags
        Folded tags of the animals that the book has.
    progress
        Called with how many rows are read.
    """
    source, place = source_of(table, columns), columns.places["tag"]
    tags = {row.cells[place].casefold() for row in table.rows if len(row.cells) > place}
    tags |= set(book_tags)
    readers = [
        CellReader(name, place, _reader(FIELDS[name], reading, tags))
        for name, place in columns.places.items()
    ]
    read, unreadable = read_rows(source, table, readers, ["tag"], progress)
    rows = [replace(row, values=_meant(row.values)) for row in read]
    single, differing = without_repeats(source, SHEET, rows)
    return AnimalSheet(single, [*unreadable, *differing], len(rows) - len(single) - len(differing))


def _reader(field: Field, reading: Reading, tags: Collection[str]) -> Callable[[str], object]:
    def read(cell: str) -> object:
        if says_nothing(field, cell):
            if field == TAG:
                raise CellNeeded(field.name)
            return NOTHING
        if field.kind == "sires":
            return read_sires(cell, lambda text: text.casefold() in tags)
        value = read_cell(field, cell, reading)
        return NOTHING if value is None else value

    return read


def _meant(values: Mapping[str, Any]) -> dict[str, Any]:
    """One sire apart from several; any way to say that an animal is gone as a status and a day."""
    meant = dict(values)
    if "sire" in meant:
        meant |= split_sires(meant["sire"])
    for field, status in _ENDINGS.items():
        if (day := meant.pop(field, None)) is not None:
            meant = {"status": status} | meant | {"ended_on": day}
    return meant
