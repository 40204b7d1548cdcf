"""Take a breeder's own spreadsheet, or an exported colony, into the book: one act, all or nothing."""

from collections.abc import Sequence
from datetime import date
from pathlib import Path

from sqlmodel import Session

from colony.acts.book.importing.folder import import_folder
from colony.acts.book.importing.imported import Imported, Progress, unwatched
from colony.acts.book.importing.sheet import SheetChoices, import_sheet
from colony.exchange.text.delimited import read_table
from colony.refusals.exchange import OnlyForSheets


def import_path(
    session: Session,
    *,
    path: Path,
    mappings: Sequence[str] = (),
    date_order: str | None = None,
    length_unit: str | None = None,
    skip_bad: bool = False,
    dry_run: bool = False,
    today: date,
    progress: Progress = unwatched,
) -> Imported:
    """Import one file of animals, or a folder that `export_folder` wrote.

    Where a fault stands, nothing is written and all faults are in the answer, unless
    `skip_bad` leaves out the rows that have one.

    Parameters
    ----------
    mappings
        ``COLUMN=FIELD`` for headings that are not known by themselves.
    date_order
        ``iso``, ``dmy`` or ``mdy``; None means the book's.
    length_unit
        The unit of widths without one; None means the book's.
    progress
        Called with what is done, how much of it, and how much there is.

    Raises
    ------
    WrongUse
        The file as a whole cannot be read, or an option does not fit it.
    """
    if path.is_dir():
        _refuse_sheet_options(mappings, date_order, length_unit, skip_bad=skip_bad)
        return import_folder(session, path=path, dry_run=dry_run, progress=progress)
    choices = SheetChoices(tuple(mappings), date_order, length_unit)
    table = read_table(path)
    return import_sheet(
        session,
        table=table,
        choices=choices,
        skip_bad=skip_bad,
        dry_run=dry_run,
        today=today,
        progress=progress,
    )


def _refuse_sheet_options(
    mappings: Sequence[str], date_order: str | None, length_unit: str | None, *, skip_bad: bool
) -> None:
    given = {
        "mapping of columns": bool(mappings),
        "order of dates": date_order is not None,
        "unit of lengths": length_unit is not None,
        "skipping of bad rows": skip_bad,
    }
    for option, is_given in given.items():
        if is_given:
            raise OnlyForSheets(option)
