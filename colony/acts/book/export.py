"""Write the book out: as a folder of plain files, or as one sheet of its animals."""

from dataclasses import dataclass
from datetime import date
from pathlib import Path

from sqlmodel import Session

from colony.acts.book.tables import OF_ANIMALS, read_book, read_heading, read_tables
from colony.exchange.folder.cells import write_noun_cell
from colony.exchange.folder.colony_toml import FILE
from colony.exchange.folder.folder import delimited_text, folder_texts
from colony.exchange.folder.noun import NounRow
from colony.exchange.sheet.book import BookRows, book_rows
from colony.exchange.tables.sires import sires_of
from colony.exchange.text.inert import make_inert
from colony.exchange.text.writing import write_file, write_files
from colony.notation.fields.animals import EXPORTED, MEASURED

SHEET_ENDING = ".csv"

SHEET_HEADINGS = tuple(field.name if field in MEASURED else field.sheet_name for field in EXPORTED)
"""The columns of a sheet; a measure is headed by its unit too."""


@dataclass(frozen=True)
class Exported:
    """Where the book was written, and how many rows it took."""

    path: str
    rows: int


def export_book(session: Session, *, path: Path, overwrite: bool, today: date) -> Exported:
    """Write one sheet of animals where the path ends in ``.csv``, else a folder of everything.

    Raises
    ------
    WouldOverwrite
        Something is there, without `overwrite`.
    NotAnExport
        The folder holds something else than an earlier export.
    CannotWrite
        The disk or the folder does not take it.
    """
    if path.suffix.casefold() == SHEET_ENDING:
        return export_sheet(session, path=path, overwrite=overwrite)
    tables = read_tables(session)
    texts = folder_texts(read_heading(session, today), tables)
    write_files(path, texts, sign=FILE, overwrite=overwrite)
    return Exported(str(path), sum(map(len, tables.values())))


def export_sheet(session: Session, *, path: Path, overwrite: bool) -> Exported:
    """Write one row an animal, with its last measurement and its tank; see `export_book`."""
    book = book_rows(read_book(session, OF_ANIMALS).tables)
    lines = [_line(row, fold, book) for fold, row in book.animals.items()]
    write_file(path, delimited_text(SHEET_HEADINGS, lines), overwrite=overwrite)
    return Exported(str(path), len(lines))


def _line(row: NounRow, fold: str, book: BookRows) -> list[str]:
    measured = book.measurements.get(fold, ())
    last = measured[-1].values if measured else {}
    values = {
        **row.values,
        **{field.name: last.get(field.name) for field in MEASURED},
        "sires": sires_of(row.values),
        "tank": book.places.get(fold),
    }
    return [make_inert(write_noun_cell(field, values[field.name])) for field in EXPORTED]
