"""The whole book as the rows of plain files."""

from collections import defaultdict
from collections.abc import Callable, Collection, Iterator, Sequence
from dataclasses import dataclass
from datetime import date
from operator import attrgetter
from typing import Any

from sqlmodel import Session, col, select

from colony.acts.book.labels import Labels, Names, read_labels
from colony.exchange.folder.colony_toml import ColonyHeading
from colony.exchange.folder.folder import Tables
from colony.exchange.folder.noun import Noun, NounRow, SpeciesValues, joined
from colony.exchange.folder.nouns import BY_NAME, NOUNS
from colony.notation.days import Day
from colony.notation.fields.field import Field
from colony.records import RECORDED, LifeHistory, Setting, Species, record_of
from colony.store.schema.first_species import first_species

OF_ANIMALS = ("systems", "tanks", "animals", "pairings", "litters", "placements", "measurements")
"""The nouns that a sheet of animals has to do with, and those that they name."""


@dataclass(frozen=True)
class BookTables:
    """Rows of the book as files have them, and what each is called."""

    tables: Tables
    names: Names

    def ids(self) -> dict[str, dict[str, int]]:
        """The id of every row that other rows may name, by noun and folded label."""
        return {
            noun: {label.casefold(): id_ for id_, label in of.items()}
            for noun, of in self.names.items()
        }


def read_book(session: Session, nouns: Collection[str] = tuple(RECORDED)) -> BookTables:
    """Every row of some nouns, or of all, oldest record first; the others are empty."""
    records = {noun: _read_records(session, noun) if noun in nouns else [] for noun in RECORDED}
    labels = read_labels(session, records)
    tables = {noun.name: _rows(noun, records[noun.name], labels) for noun in NOUNS}
    return BookTables(tables, labels.names)


def read_tables(session: Session) -> Tables:
    """Every row of the book, as the files of `nouns` have them."""
    return read_book(session).tables


def _read_records(session: Session, noun: str) -> list[Any]:
    """The columns of every row by name: records that nobody changes are not made."""
    table = record_of(noun).__table__  # type: ignore[attr-defined]
    return list(session.execute(table.select().order_by(table.c.id)))


def read_heading(session: Session, as_of: date) -> ColonyHeading:
    """The settings that were made, and the species as far as they differ from a new book's."""
    settings = {
        setting.key: setting.value
        for setting in session.exec(select(Setting).order_by(Setting.key))
    }
    return ColonyHeading(as_of, settings, dict(_own_species(session)))


def _own_species(session: Session) -> Iterator[tuple[str, SpeciesValues]]:
    first = first_species()
    traits: dict[int, dict[str, tuple[float, str]]] = defaultdict(dict)
    for row in session.exec(select(LifeHistory).order_by(LifeHistory.trait)):
        traits[row.species_id][row.trait] = (row.number, row.source)
    for species in session.exec(select(Species).order_by(col(Species.id))):
        known = first.get(species.name, {})
        own = {
            trait: (number, source)
            for trait, (number, source) in traits[species.id or 0].items()
            if list(known.get(trait, ())) != [number, source]
        }
        names = {
            key: value
            for key in ("scientific_name", "english_name")
            if (value := getattr(species, key)) != known.get(key)
        }
        if own or names:
            yield (
                species.name,
                SpeciesValues(names.get("scientific_name"), names.get("english_name"), own),
            )


def _rows(noun: Noun, records: Sequence[Any], labels: Labels) -> tuple[NounRow, ...]:
    readers = [(column.name, _reader(noun, column, labels)) for column in noun.columns]
    return tuple(
        NounRow(0, {name: read(record) for name, read in readers}, id=record.id)
        for record in records
    )


def _reader(noun: Noun, column: Field, labels: Labels) -> Callable[[Any], Any]:
    """What reads the value of a column from a record of a noun."""
    if column.refers:
        return lambda record: _name(column, record, labels)
    if (noun.name, column.name) in labels.beside:
        beside = labels.beside[noun.name, column.name]
        nothing = () if column.kind in {"sires", "tags"} else None
        return lambda record: beside.get(record.id, nothing)
    if column.kind == "known_day":
        return lambda record: _known_day(column, record)
    if column.kind == "label":
        return lambda record: labels.names[noun.name][record.id]
    return attrgetter(column.name)


def _known_day(column: Field, record: Any) -> Day | None:  # noqa: ANN401 - the record of any noun
    first = getattr(record, column.name)
    return Day(first, getattr(record, f"{column.name}_precision")) if first else None


def _name(column: Field, record: Any, labels: Labels) -> str | None:  # noqa: ANN401 - the record of any noun
    target = getattr(record, f"{column.name}_id")
    if target is None:
        return None
    name = labels.names[column.kind][target]
    if column.within is None:
        return name
    wider = BY_NAME[column.kind].column(column.within)
    return name.removeprefix(joined(_name(wider, record, labels) or "", ""))
