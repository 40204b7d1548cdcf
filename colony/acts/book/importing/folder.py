"""Import an exported colony: check every row together with the book, then write what is new."""

from collections.abc import Iterator, Sequence
from pathlib import Path

from sqlmodel import Session

from colony.acts.book.importing.imported import Imported, Progress, unwatched
from colony.acts.book.importing.known_book import known_book, read_rows
from colony.acts.book.importing.records import RecordWriter
from colony.acts.book.importing.species import write_heading
from colony.acts.book.tables import RECORDS, read_tables
from colony.exchange.folder.cells import write_noun_cell
from colony.exchange.folder.checks import check_folder, keyed
from colony.exchange.folder.folder import ColonyFolder, Tables, read_folder
from colony.exchange.folder.noun import NounRow
from colony.exchange.folder.nouns import BY_NAME, NOUNS
from colony.exchange.sheet.animals import AnimalRow, Sheet
from colony.exchange.sheet.headings import Columns
from colony.exchange.sheet.kin import check_kin, gather_kin
from colony.exchange.text.delimited import Row, Table
from colony.notation.shares import SireShare
from colony.records.rules import rules_of
from colony.store.journal.journal import tell


def import_folder(
    session: Session, *, path: Path, dry_run: bool, progress: Progress = unwatched
) -> Imported:
    """Write every row of an exported colony that the book does not have; see `import_path`.

    Settings and species numbers of the folder replace those of the book.
    """
    return import_colony(
        session, read_folder(path), name=path.name, dry_run=dry_run, progress=progress
    )


def import_colony(
    session: Session,
    folder: ColonyFolder,
    *,
    name: str,
    dry_run: bool,
    progress: Progress = unwatched,
) -> Imported:
    """Write what a folder says, as it was read; see `import_folder`."""
    book, rows = read_tables(session), read_rows(session)
    species = [*rows.species_ids, *(n for n in folder.heading.species if n not in rows.species_ids)]
    faults = check_folder(folder, book, species, _RULES)
    faults += check_kin(_SHEET, gather_kin(list(_kin_rows(folder.tables)), known_book(rows)))
    if faults:
        errors = tuple(sorted(set(faults)))
        return Imported(errors=errors, ignored=folder.ignored, refused=True)
    new = _new_rows(folder.tables, book)
    added, written = sum(map(len, new.values())), sum(map(len, folder.tables.values()))
    mended = write_heading(session, folder.heading, dry_run=dry_run)
    if not dry_run:
        RecordWriter(session, progress).write(new)
        tell(session, f"{added} rows added from {name}")
    return Imported(added, mended, written - added, ignored=folder.ignored)


def _new_rows(tables: Tables, book: Tables) -> dict[str, list[NounRow]]:
    new = {}
    for noun in NOUNS:
        booked = keyed(noun, book[noun.name])
        found = keyed(noun, tables[noun.name])
        new[noun.name] = [row for key, row in found.items() if key not in booked]
    return new


_RULES = {noun: rules_of(record) for noun, record in RECORDS.items()}
_ANIMALS = BY_NAME["animals"]
_HEADINGS = tuple(column.name for column in _ANIMALS.columns)
_SHEET = Sheet(
    Table(_ANIMALS.file, Row(1, _HEADINGS), ()),
    Columns({name: place for place, name in enumerate(_HEADINGS)}, {}, ()),
)


def _kin_rows(tables: Tables) -> Iterator[AnimalRow]:
    """The animals of a folder as rows of a sheet, a pup's parents taken from its litter."""
    litters = {row.values["code"].casefold(): row.values for row in tables["litters"]}
    for row in tables["animals"]:
        values = row.values
        litter = litters.get((values["litter"] or "").casefold(), {})
        dam = values["dam"] or litter.get("dam")
        settled = (SireShare(values["sire"], 1.0),) if values["sire"] else ()
        sires: Sequence[SireShare] = settled or values["possible_sires"] or litter.get("sires", ())
        facts = {name: values[name] for name in ("sex", "born") if values[name] is not None}
        cells = {c.name: write_noun_cell(c, values[c.name]) for c in _ANIMALS.columns}
        cells |= {"dam": dam or "", "sire": " ".join(s.tag or "" for s in sires)}
        yield AnimalRow(row.line, values["tag"], facts, dam, tuple(sires), cells)
