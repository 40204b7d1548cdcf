"""The whole book as the rows of plain files."""

from collections import defaultdict
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import date
from typing import Any

from sqlmodel import Session, SQLModel, col, select

from colony.exchange.colony_toml import Heading
from colony.exchange.folder import Tables
from colony.exchange.nouns import BY_NAME, NOUNS, Column, Noun, NounRow, SpeciesValues
from colony.notation.days import Day
from colony.notation.shares import SireShare
from colony.records import (
    Animal,
    Feeding,
    Hold,
    LifeHistory,
    Litter,
    MatingSign,
    Measurement,
    Pairing,
    PairingSire,
    Placement,
    PossibleSire,
    PregnancyFinding,
    Setting,
    Species,
    System,
    Tank,
)
from colony.store.first_species import first_species

RECORDS: Mapping[str, type[SQLModel]] = {
    "systems": System,
    "tanks": Tank,
    "animals": Animal,
    "pairings": Pairing,
    "mating_signs": MatingSign,
    "pregnancy_findings": PregnancyFinding,
    "litters": Litter,
    "placements": Placement,
    "measurements": Measurement,
    "feedings": Feeding,
    "holds": Hold,
}
"""The record of each noun."""


def is_reference(column: Column) -> bool:
    """Whether a column names a row of another noun, or a species."""
    return column.kind in BY_NAME or column.kind == "species"


@dataclass(frozen=True)
class _Labels:
    """What rows are called in files, by noun and id, and the sires that stand beside them."""

    names: Mapping[str, Mapping[int, str]]
    sires_of_litter: Mapping[int, tuple[SireShare, ...]]
    sires_of_animal: Mapping[int, tuple[SireShare, ...]]
    males_of_pairing: Mapping[int, tuple[str, ...]]


def read_tables(session: Session) -> Tables:
    """Every row of the book, as the files of `nouns` have them, oldest record first."""
    records = _read_records(session)
    labels = _read_labels(session, records)
    return {
        noun.name: tuple(NounRow(0, _values(noun, one, labels)) for one in records[noun.name])
        for noun in NOUNS
    }


def read_ids(session: Session) -> dict[str, dict[str, int]]:
    """The id of every row that other rows may name, by noun and folded label."""
    names = _read_labels(session, _read_records(session)).names
    return {
        noun: {label.casefold(): id_ for id_, label in of.items()} for noun, of in names.items()
    }


def read_heading(session: Session, as_of: date) -> Heading:
    """The settings that were made, and the species as far as they differ from a new book's."""
    settings = {one.key: one.value for one in session.exec(select(Setting).order_by(Setting.key))}
    return Heading(as_of, settings, dict(_own_species(session)))


def _read_records(session: Session) -> dict[str, list[Any]]:
    return {
        name: list(session.exec(select(record).order_by(col(record.id))))  # type: ignore[attr-defined]
        for name, record in RECORDS.items()
    }


def _own_species(session: Session) -> Iterator[tuple[str, SpeciesValues]]:
    first = first_species()
    traits: dict[int, dict[str, tuple[float, str]]] = defaultdict(dict)
    for one in session.exec(select(LifeHistory).order_by(LifeHistory.trait)):
        traits[one.species_id][one.trait] = (one.number, one.source)
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


def _read_labels(session: Session, records: Mapping[str, list[Any]]) -> _Labels:
    names = {
        noun.name: {one.id: getattr(one, noun.label) for one in records[noun.name]}
        for noun in NOUNS
        if noun.key and hasattr(RECORDS[noun.name], noun.label)
    }
    names["species"] = {one.id or 0: one.name for one in session.exec(select(Species))}
    names["pairings"] = _pairing_labels(records["pairings"], names["animals"])
    of_litter: dict[int, tuple[SireShare, ...]] = defaultdict(tuple)
    of_animal: dict[int, tuple[SireShare, ...]] = defaultdict(tuple)
    for row in session.exec(select(PossibleSire).order_by(col(PossibleSire.id))):
        share = SireShare(names["animals"].get(row.sire_id or 0), row.share)
        if row.litter_id is not None:
            of_litter[row.litter_id] += (share,)
        elif row.animal_id is not None:
            of_animal[row.animal_id] += (share,)
    males: dict[int, tuple[str, ...]] = defaultdict(tuple)
    for male in session.exec(select(PairingSire).order_by(col(PairingSire.id))):
        males[male.pairing_id] += (names["animals"][male.sire_id],)
    return _Labels(names, of_litter, of_animal, males)


def _pairing_labels(pairings: list[Pairing], tags: Mapping[int, str]) -> dict[int, str]:
    """A pairing is called by its dam and first day, and by its number where two began then."""
    seen: dict[str, int] = defaultdict(int)
    labels = {}
    for one in pairings:
        label = f"{tags[one.dam_id]} {one.started}"
        seen[label] += 1
        labels[one.id or 0] = label if seen[label] == 1 else f"{label} #{seen[label]}"
    return labels


def _values(noun: Noun, record: Any, labels: _Labels) -> dict[str, Any]:  # noqa: ANN401 - any of RECORDS
    return {column.name: _value(noun, column, record, labels) for column in noun.columns}


def _value(noun: Noun, column: Column, record: Any, labels: _Labels) -> Any:  # noqa: ANN401 - each column has its own type
    if is_reference(column):
        target = getattr(record, f"{column.name}_id")
        return None if target is None else labels.names[column.kind][target]
    beside = {
        ("animals", "possible_sires"): labels.sires_of_animal,
        ("litters", "sires"): labels.sires_of_litter,
        ("pairings", "sires"): labels.males_of_pairing,
    }
    if (noun.name, column.name) in beside:
        return beside[noun.name, column.name].get(record.id, ())
    if column.kind == "day_as_known":
        return Day(record.born, record.born_precision) if record.born else None
    if (noun.name, column.name) == ("pairings", "pairing"):
        return labels.names["pairings"][record.id]
    return getattr(record, column.name)
