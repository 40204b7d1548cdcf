"""Import an exported colony: check every row together with the book, then write what is new."""

from pathlib import Path

from sqlmodel import Session

from colony.acts.book.importing.imported import Imported, Progress, unwatched
from colony.acts.book.importing.records import RecordWriter
from colony.acts.book.importing.species import write_heading
from colony.acts.book.tables import read_book
from colony.exchange.folder.checks import check_folder
from colony.exchange.folder.folder import ColonyFolder, read_folder
from colony.exchange.folder.nouns import NOUNS
from colony.exchange.tables.changes import Change
from colony.exchange.tables.checks import keyed
from colony.records import RECORDED, record_of
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
    book = read_book(session)
    species = list(dict.fromkeys([*book.names["species"].values(), *folder.heading.species]))
    rules = {noun: rules_of(record_of(noun)) for noun in RECORDED}
    faults = check_folder(folder, book.tables, species, rules)
    if faults:
        errors = tuple(sorted(set(faults)))
        return Imported(errors=errors, ignored=folder.ignored, refused=True)
    new: dict[str, list[Change]] = {}
    for noun in NOUNS:
        booked = keyed(noun, book.tables[noun.name])
        found = keyed(noun, folder.tables[noun.name])
        new[noun.name] = [Change(row.values) for key, row in found.items() if key not in booked]
    added, written = sum(map(len, new.values())), sum(map(len, folder.tables.values()))
    corrected = write_heading(session, folder.heading, dry_run=dry_run)
    if not dry_run:
        as_of = folder.heading.as_of
        RecordWriter(session, book, progress, as_of, sheet=False).write(new)
        tell(session, f"{added} rows added from {name}")
    return Imported(added, corrected, written - added, ignored=folder.ignored)
