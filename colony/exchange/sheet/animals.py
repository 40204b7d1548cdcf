"""A breeder's own sheet of animals as one value a row, and what cannot be read in it."""

from collections.abc import Callable, Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from colony.exchange.sheet.cells import Reading, read_cell, says_nothing
from colony.exchange.sheet.headings import FIELDS, Columns
from colony.exchange.sheet.sires import read_sires
from colony.exchange.text.delimited import Row, Table
from colony.exchange.text.faults import Fault
from colony.notation.fields.animals import ENDINGS
from colony.notation.shares import SireShare
from colony.refusals.base import Remedy, WrongUse
from colony.refusals.cells import CellNeeded, MoreCellsThanHeadings, RowTwice

_ENDINGS = {field.name: status for status, field in ENDINGS.items()} | {"ended_on": "gone"}


@dataclass(frozen=True)
class AnimalRow:
    """What one row says; a field without a value is absent from `facts`.

    `facts` has the fields of `headings.FIELDS` but tag, dam and sire; an end of whatever
    kind stands as `status` and `ended_on`.
    """

    line: int
    tag: str
    facts: Mapping[str, Any]
    dam: str | None
    sires: tuple[SireShare, ...]
    cells: Mapping[str, str]

    @property
    def fold(self) -> str:
        """The tag as it is compared: upper and lower case are one."""
        return self.tag.casefold()


@dataclass(frozen=True)
class AnimalSheet:
    """Every row that has a tag, in file order, and every fault of single cells and rows."""

    rows: tuple[AnimalRow, ...]
    faults: tuple[Fault, ...]
    repeats: int
    """Rows that say again what one before them says; they are not in `rows`."""


@dataclass(frozen=True)
class Sheet:
    """A table of animals with its columns known."""

    table: Table
    columns: Columns

    def fault(
        self,
        line: int,
        field: str,
        value: str,
        problem: str,
        remedies: tuple[Remedy, ...] = (),
    ) -> Fault:
        """A fault in the column of a field, by the heading that the file has for it."""
        place = self.columns.places.get(field)
        heading = field if place is None else self.table.header.cells[place]
        return Fault(self.table.path, line, heading, value, problem, remedies)

    def tags(self) -> set[str]:
        """Every tag of the sheet, folded, readable or not."""
        place = self.columns.places["tag"]
        return {row.cells[place].casefold() for row in self.table.rows if len(row.cells) > place}


def read_animals(
    sheet: Sheet, reading: Reading, book_tags: Collection[str], progress: Callable[[int], None]
) -> AnimalSheet:
    """Read every row; all that cannot be read is listed, none of it raised.

    Parameters
    ----------
    book_tags
        Folded tags of the animals that the book has.
    progress
        Is told how many rows are read.
    """
    reader = _RowReader(sheet, reading, sheet.tags().union(book_tags))
    rows = []
    for done, raw in enumerate(sheet.table.rows, 1):
        if (row := reader.read(raw)) is not None:
            rows.append(row)
        progress(done)
    single, faults, repeats = _without_repeats(sheet, rows)
    return AnimalSheet(tuple(single), (*reader.faults, *faults), repeats)


class _RowReader:
    def __init__(self, sheet: Sheet, reading: Reading, tags: set[str]) -> None:
        self.sheet, self.reading, self.tags = sheet, reading, tags
        self.faults: list[Fault] = []

    def read(self, row: Row) -> AnimalRow | None:
        """The row as far as it can be read, or None where it has no tag."""
        cells = dict(self._cells(row))
        read = ((field, self._value(row, field, cell)) for field, cell in cells.items())
        facts = {field: value for field, value in read if value is not None}
        tag, dam, sires = (facts.pop(field, None) for field in ("tag", "dam", "sire"))
        if "tag" not in cells:
            self._fault(row, "tag", "", CellNeeded("tag"))
        if tag is None:
            return None
        return AnimalRow(row.line, tag, _ended(facts), dam, sires or (), cells)

    def _cells(self, row: Row) -> Iterator[tuple[str, str]]:
        headings = self.sheet.table.header.cells
        beyond = [cell for cell in row.cells[len(headings) :] if cell]
        if beyond:
            self._fault(row, "", beyond[0], MoreCellsThanHeadings(len(row.cells), len(headings)))
        for field, place in self.sheet.columns.places.items():
            cell = row.cells[place] if place < len(row.cells) else ""
            if not says_nothing(FIELDS[field], cell):
                yield field, cell

    def _value(self, row: Row, field: str, cell: str) -> Any:  # noqa: ANN401 - each field has its own type
        try:
            if FIELDS[field].kind == "sires":
                return read_sires(cell, self._is_tag)
            return read_cell(FIELDS[field], cell, self.reading)
        except WrongUse as wrong:
            self._fault(row, field, cell, wrong)
            return None

    def _is_tag(self, text: str) -> bool:
        return text.casefold() in self.tags

    def _fault(self, row: Row, field: str, value: str, wrong: WrongUse) -> None:
        self.faults.append(self.sheet.fault(row.line, field, value, wrong.sentence, wrong.remedies))


def _ended(facts: dict[str, Any]) -> dict[str, Any]:
    """Fold the ways to say that an animal is no longer here into a status and a day."""
    for field, status in _ENDINGS.items():
        if (day := facts.pop(field, None)) is not None:
            facts = {"status": status} | facts | {"ended_on": day}
    return facts


def _without_repeats(
    sheet: Sheet, rows: Sequence[AnimalRow]
) -> tuple[list[AnimalRow], list[Fault], int]:
    first: dict[str, AnimalRow] = {}
    faults, repeats = [], 0
    for row in rows:
        earlier = first.setdefault(row.fold, row)
        if earlier is row:
            continue
        if differing := _differing(earlier, row):
            wrong = RowTwice(row.tag, earlier.line, differing)
            faults.append(sheet.fault(row.line, "tag", row.tag, wrong.sentence))
        else:
            repeats += 1
    return list(first.values()), faults, repeats


def _differing(one: AnimalRow, other: AnimalRow) -> list[str]:
    if one.cells == other.cells:
        return []
    differing = {f for f in {*one.facts, *other.facts} if one.facts.get(f) != other.facts.get(f)}
    if (one.dam or "").casefold() != (other.dam or "").casefold():
        differing.add("dam")
    if one.sires != other.sires:
        differing.add("sire")
    return sorted(differing)
