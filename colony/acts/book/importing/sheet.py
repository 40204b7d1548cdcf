"""Import a breeder's own sheet of animals: read it, check it as a whole, write it."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from sqlmodel import Session, select

from colony.acts.book.importing.imported import Imported, Progress, by_steps
from colony.acts.book.importing.records import RecordWriter
from colony.acts.book.tables import OF_ANIMALS, read_book
from colony.exchange.folder.noun import NounRow
from colony.exchange.sheet.animals import AnimalSheet, read_animals, source_of
from colony.exchange.sheet.book import BookRows, book_rows
from colony.exchange.sheet.cells import Reading
from colony.exchange.sheet.doubtful_parents import check_named_parents
from colony.exchange.sheet.headings import Columns, match_headings
from colony.exchange.sheet.plan import plan_sheet
from colony.exchange.sheet.rows import check_rows
from colony.exchange.tables.kin import KinRow, check_kin, gather_kin
from colony.exchange.tables.reading import Source
from colony.exchange.text.delimited import Table
from colony.exchange.text.faults import Fault
from colony.notation.days import DATE_ORDERS
from colony.notation.measures import LENGTH
from colony.records import Animal, Species
from colony.records.rules import rules_of
from colony.refusals.exchange import UnknownChoice
from colony.store.journal.journal import tell
from colony.store.settings import read_settings


@dataclass(frozen=True)
class SheetChoices:
    """How the user says that a sheet is written."""

    mappings: tuple[str, ...] = ()
    date_order: str | None = None
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
    if choices.date_order not in (None, *DATE_ORDERS):
        raise UnknownChoice("order of dates", choices.date_order or "", list(DATE_ORDERS))
    if choices.length_unit not in (None, *LENGTH.units):
        raise UnknownChoice("unit of lengths", choices.length_unit or "", ["cm", "in", "mm"])
    columns = match_headings(table.path, table.header.cells, choices.mappings)
    kept = read_book(session, OF_ANIMALS)
    source, book = source_of(table, columns), book_rows(kept.tables)
    reading = _reading(session, choices, columns, today)
    reads = by_steps(progress, "reading", len(table.rows))
    read = read_animals(table, columns, reading, book.animals.keys(), reads)
    good, kin, faults = _sift(source, read, book, today, skip_bad=skip_bad)
    ignored = _ignored(table, columns, book)
    if faults and not skip_bad:
        return Imported(errors=faults, ignored=ignored, refused=True)
    plan = plan_sheet(good, kin, book, today)
    if not dry_run:
        writer = RecordWriter(session, kept, progress, today, sheet=True)
        writer.write(plan.changes, parents_first=True)
        tell(session, f"{plan.added} added and {plan.updated} updated from {table.name}")
    return Imported(
        added=plan.added,
        updated=plan.updated,
        skipped=plan.unchanged + read.repeats,
        errors=faults,
        ignored=ignored,
        ancestors=plan.ancestors,
    )


def _reading(session: Session, choices: SheetChoices, columns: Columns, today: date) -> Reading:
    settings = read_settings(session)
    bare = {"width": choices.length_unit or settings.length_unit, "mass": settings.mass_unit}
    species = _species_words(session.exec(select(Species)).all())
    order = choices.date_order or settings.date_order
    return Reading(today, order, bare | dict(columns.units), species)


def _species_words(species: Sequence[Species]) -> dict[str, str]:
    """Every way to write a species: its word, its English name, ``P. motoro`` and in full."""
    words: dict[str, str] = {}
    for row in species:
        genus, _, epithet = row.scientific_name.partition(" ")
        written = (row.english_name, f"{genus[:1]}. {epithet}", row.scientific_name, row.name)
        words |= {text.casefold(): row.name for text in written if text}
    return words


def _sift(
    source: Source, sheet: AnimalSheet, book: BookRows, today: date, *, skip_bad: bool
) -> tuple[Sequence[NounRow], dict[str, KinRow], tuple[Fault, ...]]:
    """The rows without a fault, and every fault; what is left is checked again until none is."""
    found = {*sheet.faults, *check_named_parents(source, sheet.rows, book)}
    good = sheet.rows
    while True:
        kin = gather_kin(good, book.animals)
        rows = check_rows(source, good, book, rules_of(Animal), today)
        new = {*rows, *check_kin(source, kin)}
        found |= new
        if not skip_bad or (not new and good is not sheet.rows):
            break
        bad = {fault.line for fault in found}
        good = [row for row in good if row.line not in bad]
    return good, kin, tuple(sorted(found))


def _ignored(table: Table, columns: Columns, book: BookRows) -> tuple[str, ...]:
    """Columns that mean nothing; that of the tank too while the book has no tanks."""
    place = columns.places.get("tank")
    if place is None or book.tanks:
        return columns.ignored
    return (*columns.ignored, table.header.cells[place])
