"""Import a breeder's own sheet of animals: read it, check it as a whole, write it."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from sqlmodel import Session

from colony.acts.book.importing.changes import plan_import
from colony.acts.book.importing.imported import Imported, Progress, by_steps
from colony.acts.book.importing.known_book import known_book, read_rows
from colony.acts.book.importing.rows import write_plan
from colony.exchange.sheet.animals import AnimalRow, Sheet, read_animals
from colony.exchange.sheet.cells import Reading
from colony.exchange.sheet.doubtful_parents import check_named_parents
from colony.exchange.sheet.headings import match_headings
from colony.exchange.sheet.kin import KinRow, check_kin, gather_kin
from colony.exchange.sheet.known import KnownBook
from colony.exchange.sheet.rows import check_rows
from colony.exchange.text.days import ORDERS
from colony.exchange.text.delimited import Table
from colony.exchange.text.faults import Fault
from colony.notation.measures import LENGTH
from colony.refusals.exchange import UnknownChoice
from colony.store.journal.journal import tell
from colony.store.settings import read_settings


@dataclass(frozen=True)
class SheetChoices:
    """How the user says that a sheet is written."""

    mappings: tuple[str, ...] = ()
    date_order: str = "iso"
    length_unit: str | None = None


def import_sheet(
    session: Session,
    *,
    table: Table,
    choices: SheetChoices,
    skip_bad: bool,
    dry_run: bool,
    today: date,
    progress: Progress,
) -> Imported:
    """Write every animal of a sheet that the book does not have so already; see `import_path`."""
    _refuse_unknown_choice(choices)
    columns = match_headings(table.path, table.header.cells, choices.mappings)
    sheet, rows = Sheet(table, columns), read_rows(session)
    book, settings = known_book(rows), read_settings(session)
    bare = {"width": choices.length_unit or settings.length_unit, "mass": settings.mass_unit}
    reading = Reading(today, choices.date_order, bare | dict(columns.units), rows.species)
    reads = by_steps(progress, "reading", len(table.rows))
    read = read_animals(sheet, reading, book.animals.keys(), reads)
    good, kin, faults = _sift(sheet, read.rows, read.faults, book, skip_bad=skip_bad)
    ignored = _ignored(sheet, book)
    if faults and not skip_bad:
        return Imported(errors=faults, ignored=ignored, refused=True)
    plan = plan_import(session, good, kin, rows, today)
    if not dry_run:
        write_plan(session, plan, rows, today=today, progress=progress)
        tell(session, f"{plan.added} added and {plan.updated} updated from {table.name}")
    return Imported(
        added=plan.added,
        updated=plan.updated,
        skipped=plan.unchanged + read.repeats,
        errors=faults,
        ignored=ignored,
        ancestors=len(plan.ancestors),
    )


def _sift(
    sheet: Sheet,
    rows: Sequence[AnimalRow],
    faults: Sequence[Fault],
    book: KnownBook,
    *,
    skip_bad: bool,
) -> tuple[Sequence[AnimalRow], dict[str, KinRow], tuple[Fault, ...]]:
    """The rows without a fault, and every fault; what is left is checked again until none is."""
    found = {*faults, *check_named_parents(sheet, rows, book)}
    good = rows
    while True:
        kin = gather_kin(good, book)
        new = {*check_rows(sheet, good, book), *check_kin(sheet, kin)}
        found |= new
        if not skip_bad or (not new and good is not rows):
            break
        bad = {fault.line for fault in found}
        good = [row for row in good if row.line not in bad]
    return good, kin, tuple(sorted(found))


def _ignored(sheet: Sheet, book: KnownBook) -> tuple[str, ...]:
    """Columns that mean nothing; that of the tank too while the book has no tanks."""
    place = sheet.columns.places.get("tank")
    if place is None or book.tanks:
        return sheet.columns.ignored
    return (*sheet.columns.ignored, sheet.table.header.cells[place])


def _refuse_unknown_choice(choices: SheetChoices) -> None:
    if choices.date_order not in ORDERS:
        raise UnknownChoice("order of dates", choices.date_order, list(ORDERS))
    if choices.length_unit not in (None, *LENGTH.units):
        raise UnknownChoice("unit of lengths", choices.length_unit or "", ["cm", "in", "mm"])
