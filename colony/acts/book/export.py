"""Write the book out: as a folder of plain files, or as one sheet of its animals."""

from dataclasses import dataclass
from datetime import date
from pathlib import Path

from sqlmodel import Session

from colony.acts.book.tables import OF_ANIMALS, read_book, read_heading, read_tables
from colony.exchange.folder.folder import delimited_text, folder_texts
from colony.exchange.folder.noun import NounRow
from colony.exchange.sheet.book import BookRows, book_rows
from colony.exchange.tables.sires import sires_of, write_sires
from colony.exchange.text.inert import make_inert
from colony.exchange.text.writing import write_file, write_files

SHEET_ENDING = ".csv"

SHEET_HEADINGS = (
    *("tag", "name", "species", "sex", "born", "dam", "sire", "origin", "arrived", "arrived_from"),
    *("transponder", "line", "held_back", "reserved_for", "breeding_ban", "mature_since"),
    *("status", "ended_on", "ended_why", "tank", "width_mm", "mass_g", "measured_on", "note"),
)
_MEASURED = ("width_mm", "mass_g", "measured_on")


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
        Something is there, and `overwrite` is not said.
    CannotWrite
        The disk or the folder does not take it.
    """
    if path.suffix.casefold() == SHEET_ENDING:
        return export_sheet(session, path=path, overwrite=overwrite)
    tables = read_tables(session)
    texts = folder_texts(read_heading(session, today), tables)
    write_files(path, texts, overwrite=overwrite)
    return Exported(str(path), sum(map(len, tables.values())))


def export_sheet(session: Session, *, path: Path, overwrite: bool) -> Exported:
    """Write one row an animal, with its last measurement and its tank; see `export_book`."""
    book = book_rows(read_book(session, OF_ANIMALS).tables)
    lines = [_line(row, fold, book) for fold, row in book.animals.items()]
    write_file(path, delimited_text(SHEET_HEADINGS, lines), overwrite=overwrite)
    return Exported(str(path), len(lines))


def _line(row: NounRow, fold: str, book: BookRows) -> list[str]:
    sires = sires_of(row.values)
    last = book.measurements.get(fold, ())[-1:]
    beside = {
        "sire": write_sires(sires) if sires else None,
        "held_back": "yes" if row.values["held_back"] else None,
        "tank": book.places.get(fold),
        **{name: last[0].values[name] if last else None for name in _MEASURED},
    }
    values = (beside[h] if h in beside else row.values[h] for h in SHEET_HEADINGS)
    return ["" if value is None else make_inert(str(value)) for value in values]
