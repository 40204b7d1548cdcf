"""Write the book out: as a folder of plain files, or as one sheet of its animals."""

from dataclasses import dataclass
from datetime import date
from pathlib import Path

from sqlmodel import Session, col, select

from colony.acts.book.importing.known_book import BookRows, dam_of, read_rows, sires_of
from colony.acts.book.tables import read_heading, read_tables
from colony.exchange.folder.cells import write_noun_cell
from colony.exchange.folder.colony_toml import FILE
from colony.exchange.folder.folder import delimited_text, folder_texts
from colony.exchange.text.inert import make_inert
from colony.exchange.text.writing import write_file, write_files
from colony.notation.days import Day
from colony.notation.fields.animals import EXPORTED, MEASURED
from colony.records import Animal, Measurement

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
        Something is there, and `overwrite` is not said.
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
    rows, measured = read_rows(session), _last_measurements(session)
    lines = [_line(animal, rows, measured) for animal in rows.animals.values()]
    write_file(path, delimited_text(SHEET_HEADINGS, lines), overwrite=overwrite)
    return Exported(str(path), len(lines))


def _last_measurements(session: Session) -> dict[int, Measurement]:
    ordered = select(Measurement).order_by(col(Measurement.measured_on))
    return {one.animal_id: one for one in session.exec(ordered)}


def _line(animal: Animal, rows: BookRows, measured: dict[int, Measurement]) -> list[str]:
    last = measured.get(animal.id or 0)
    place = rows.places.get(animal.id or 0)
    names = {number: name for name, number in rows.species_ids.items()}
    beside = {
        "species": names.get(animal.species_id or 0),
        "born": Day(animal.born, animal.born_precision) if animal.born else None,
        "dam": dam_of(animal, rows),
        "sires": sires_of(animal, rows),
        "tank": place[1] if place else None,
        "width_mm": last.width_mm if last else None,
        "mass_g": last.mass_g if last else None,
        "measured_on": last.measured_on if last else None,
    }
    values = (beside[f.name] if f.name in beside else getattr(animal, f.name) for f in EXPORTED)
    return [
        make_inert(write_noun_cell(field, value))
        for field, value in zip(EXPORTED, values, strict=True)
    ]
