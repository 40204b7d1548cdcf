"""Read and write a whole colony as a folder of plain files."""

import csv
import io
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from functools import partial
from pathlib import Path

from colony.exchange.folder.cells import read_noun_cell, write_noun_cell
from colony.exchange.folder.colony_toml import FILE, ColonyHeading, read_heading, write_heading
from colony.exchange.folder.noun import Noun, NounRow, joined
from colony.exchange.folder.nouns import NOUNS, REFERRED
from colony.exchange.tables.reading import CellReader, Source, read_rows
from colony.exchange.text.content import read_content
from colony.exchange.text.delimited import Row, read_table
from colony.exchange.text.faults import Fault
from colony.exchange.text.inert import make_inert
from colony.refusals.exchange import FileEmpty, NoSuchFile, NotAColonyFolder

Tables = Mapping[str, Sequence[NounRow]]


@dataclass(frozen=True)
class ColonyFolder:
    """What a folder says: its heading, its rows by noun, and what cannot be read."""

    heading: ColonyHeading
    tables: Tables
    names: Mapping[str, frozenset[str]]
    """The folded label of every row by noun, also of rows that cannot be read."""
    faults: tuple[Fault, ...]
    ignored: tuple[str, ...]


@dataclass(frozen=True)
class _NounFile:
    rows: tuple[NounRow, ...] = ()
    names: frozenset[str] = frozenset()
    faults: tuple[Fault, ...] = ()
    ignored: tuple[str, ...] = ()


def read_folder(path: Path) -> ColonyFolder:
    """Read an exported colony; a file that is not there has no rows.

    Raises
    ------
    NotAColonyFolder
        It has no ``colony.toml``, or a file lacks a column that it needs.
    """
    heading = _read_heading(path)
    files = {noun.name: _read_noun(path, noun) for noun in NOUNS}
    return ColonyFolder(
        heading,
        {name: file.rows for name, file in files.items()},
        {name: file.names for name, file in files.items()},
        tuple(fault for file in files.values() for fault in file.faults),
        tuple(heading for file in files.values() for heading in file.ignored),
    )


def folder_texts(heading: ColonyHeading, tables: Tables) -> dict[str, str]:
    """The text of every file of an exported colony, by file name."""
    written = {noun.file: noun_text(noun, tables[noun.name]) for noun in NOUNS}
    return {FILE: write_heading(heading)} | written


def noun_text(noun: Noun, rows: Iterable[NounRow]) -> str:
    """One noun as comma-separated cells, none of which a spreadsheet would run."""
    cells = (
        [make_inert(write_noun_cell(column, row.values[column.name])) for column in noun.columns]
        for row in rows
    )
    return delimited_text([column.name for column in noun.columns], cells)


def delimited_text(headings: Sequence[str], rows: Iterable[Sequence[str]]) -> str:
    """Lines of comma-separated cells under their headings."""
    text = io.StringIO(newline="")
    writer = csv.writer(text, lineterminator="\n")
    writer.writerow(headings)
    writer.writerows(rows)
    return text.getvalue()


def _read_heading(path: Path) -> ColonyHeading:
    try:
        text = read_content(path / FILE).decode("utf-8")
    except NoSuchFile as missing:
        raise NotAColonyFolder(str(path), f"it has no {FILE}") from missing
    except UnicodeDecodeError as broken:
        raise NotAColonyFolder(str(path), f"{FILE} is not UTF-8") from broken
    return read_heading(text, str(path))


def _read_noun(folder: Path, noun: Noun) -> _NounFile:
    path = folder / noun.file
    if not path.exists():
        return _NounFile()
    try:
        table = read_table(path)
    except FileEmpty:
        return _NounFile()
    headings = [heading.casefold() for heading in table.header.cells]
    missing = [c.name for c in noun.columns if c.needed and c.name not in headings]
    if missing:
        raise NotAColonyFolder(str(folder), f"{noun.file} has no column {missing[0]}")
    known = {column.name for column in noun.columns}
    places = {heading: place for place, heading in enumerate(headings) if heading in known}
    readers = [
        CellReader(column.name, places.get(column.name), partial(read_noun_cell, column))
        for column in noun.columns
    ]
    rows, faults = read_rows(Source(noun.file), table, readers, known)
    return _NounFile(
        tuple(rows),
        _names(noun, headings, table.rows),
        tuple(faults),
        tuple(f"{noun.file}: {h}" for h in headings if h and h not in known),
    )


def _names(noun: Noun, headings: Sequence[str], rows: Iterable[Row]) -> frozenset[str]:
    if noun.name not in REFERRED:
        return frozenset()
    places = [headings.index(name) for name in noun.labels]
    return frozenset(
        joined(*(row.cells[place] for place in places)).casefold()
        for row in rows
        if max(places) < len(row.cells)
    )
