"""Write what an import changes as records, each row named by its label."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from datetime import date
from typing import Any

import networkx as nx
from sqlmodel import Session, SQLModel, col, select

from colony.acts.animals.leaving import leave_everything
from colony.acts.book.importing.imported import Progress, by_steps
from colony.acts.book.tables import BookTables
from colony.acts.orders.people import NAMES as PERSONAL_NAMES
from colony.acts.orders.people import write_person
from colony.acts.orders.reserving import keep_by_name
from colony.exchange.folder.noun import Noun, referred
from colony.exchange.folder.nouns import BY_NAME, NOUNS, REFERRED
from colony.exchange.tables.changes import Change, Changes
from colony.exchange.tables.sires import sires_of
from colony.notation.fields.field import Field
from colony.records import (
    PairingSire,
    PossibleSire,
    Reservation,
    Species,
    VetPatient,
    record_of,
)

_COLUMNS = {noun.name: {column.name: column for column in noun.columns} for noun in NOUNS}
_KEPT_FOR = "reserved_for"
"""The name at an animal that is a buyer's: it becomes an order and is no column of the animal."""

_MOST_NAMED = 10_000
"""How many rows one question to a database may name: SQLite takes 32,766."""

_ANIMALS_IN_A_CELL: tuple[tuple[type[SQLModel], str, str, str, str], ...] = (
    (PairingSire, "pairings", "sires", "pairing_id", "sire_id"),
    (VetPatient, "vet_visits", "animals", "visit_id", "animal_id"),
)
"""The record of each animal of a cell, the noun and column of it, and the keys of both."""


class RecordWriter:
    """One import's writing: noun after noun, what stands beside them last."""

    def __init__(
        self, session: Session, book: BookTables, progress: Progress, today: date, *, sheet: bool
    ) -> None:
        self.session, self.book, self.progress = session, book, progress
        self.today, self.sheet = today, sheet
        self.ids = book.ids()
        # Those that the heading of a folder has brought are here too.
        species = session.exec(select(Species)).all()
        self.ids["species"] = {row.name.casefold(): row.id or 0 for row in species}
        self.written: dict[str, list[tuple[Change, Any]]] = {noun.name: [] for noun in NOUNS}

    def write(self, changes: Changes, *, parents_first: bool = False) -> None:
        """Write rows that were checked; parents may stand anywhere among them.

        With `parents_first` each animal is written once, which is quicker, but not in the
        order of the rows.
        """
        all_ = sum(map(len, changes.values()))
        self.report, self.done = by_steps(self.progress, "writing", all_), 0
        with self.session.no_autoflush:
            for noun in NOUNS:
                rows = changes.get(noun.name, ())
                booked = self._booked(noun, rows)
                first = parents_first and noun.name == "animals"
                for batch in _generations(rows) if first else [rows]:
                    self._write_rows(noun, batch, booked)
            self._join_families()
            self._write_sires()
            self._write_beside()
            self._write_people()
            self.session.flush()
            self._keep_by_name()
            for change, animal in self.written["animals"]:
                # Who is gone, by a sheet, leaves its tank and its pairings.
                if change.booked is not None and "status" in change.values and animal.ended_on:
                    leave_everything(self.session, animal, animal.ended_on)

    def _booked(self, noun: Noun, changes: Iterable[Change]) -> dict[int, Any]:
        """The records of the book that are changed, by id."""
        record: Any = record_of(noun.name)
        ids = [change.booked.id for change in changes if change.booked is not None]
        return {
            row.id: row
            for at in range(0, len(ids), _MOST_NAMED)
            for row in self.session.exec(
                select(record).where(col(record.id).in_(ids[at : at + _MOST_NAMED]))
            )
        }

    def _write_rows(self, noun: Noun, changes: Sequence[Change], booked: Mapping[int, Any]) -> None:
        written = []
        for change in changes:
            facts = self._facts(noun, change)
            if change.booked is None:
                record: Any = record_of(noun.name)(**facts)
            else:
                record = booked[change.booked.id]
                for name, value in facts.items():
                    setattr(record, name, value)
            self.session.add(record)
            written.append((change, record))
            self.done += 1
            self.report(self.done)
        self.session.flush()
        self.written[noun.name] += written
        if noun.name in REFERRED:
            labels = self.ids.setdefault(noun.name, {})
            new = ((noun.called(c.values), r.id) for c, r in written if c.booked is None)
            labels.update((label.casefold(), id_) for label, id_ in new)

    def _facts(self, noun: Noun, change: Change) -> dict[str, Any]:
        facts: dict[str, Any] = {}
        for name, value in change.values.items():
            column = _COLUMNS[noun.name][name]
            if column.is_column and name != _KEPT_FOR:
                facts |= column.columns(self._id(column, change) if column.refers else value)
        return facts

    def _id(self, column: Field, change: Change) -> int | None:
        """The id of what a column names; None too for kin that is still to be written."""
        name = referred(column, change.values)
        return None if name is None else self.ids.get(column.kind, {}).get(name.casefold())

    def _animal(self, tag: str | None) -> int | None:
        return None if tag is None else self.ids["animals"][tag.casefold()]

    def _join_families(self) -> None:
        """Join animals to parents and litters that were written after them."""
        columns = [BY_NAME["animals"].column(name) for name in ("dam", "sire", "litter")]
        for change, animal in self.written["animals"]:
            for column in columns:
                if change.values.get(column.name):
                    setattr(animal, f"{column.name}_id", self._id(column, change))
        self.session.flush()

    def _write_sires(self) -> None:
        """Possible sires of litters and of animals; those that a file replaces go."""
        for noun, column, owner in (
            ("litters", "sires", "litter_id"),
            ("animals", "possible_sires", "animal_id"),
        ):
            for change, record in self.written[noun]:
                if change.booked is not None and column in change.values:
                    self._forget_sires(record.id)
                for share in change.values.get(column) or ():
                    facts = {owner: record.id, "sire_id": self._animal(share.tag)}
                    self.session.add(PossibleSire(**facts, share=share.share))

    def _forget_sires(self, animal_id: int) -> None:
        for row in self.session.exec(
            select(PossibleSire).where(PossibleSire.animal_id == animal_id)
        ):
            self.session.delete(row)
        self.session.flush()

    def _write_beside(self) -> None:
        """Write the animals that stand in one cell: males of a pairing, whom a vet saw."""
        for record, noun, column, owner, animal in _ANIMALS_IN_A_CELL:
            for change, row in self.written[noun]:
                for tag in change.values[column]:
                    self.session.add(record(**{owner: row.id, animal: self._animal(tag)}))

    def _write_people(self) -> None:
        """Write what is personal of buyers beside the journal."""
        for change, buyer in self.written["buyers"]:
            facts = {name: change.values.get(name) for name in PERSONAL_NAMES}
            if facts["name"]:
                write_person(self.session, buyer, facts)

    def _keep_by_name(self) -> None:
        """Make an order of each name at an animal for which no reservation was brought."""
        named = [
            (animal, change.values[_KEPT_FOR] or "")
            for change, animal in self.written["animals"]
            if _KEPT_FOR in change.values and (change.values[_KEPT_FOR] or change.booked)
        ]
        kept = set(
            self.session.exec(
                select(Reservation.animal_id).where(col(Reservation.ended_on).is_(None))
            )
        )
        for animal, name in named:
            if animal.status == "present" and (self.sheet or animal.id not in kept):
                keep_by_name(self.session, animal, name, self.today)


def _generations(changes: Sequence[Change]) -> Iterator[list[Change]]:
    """Parents before their pups, so that each animal is written once, its parents known."""
    by_fold = {change.name("tag"): change for change in changes}
    kin = nx.DiGraph()
    kin.add_nodes_from(by_fold)
    for fold, change in by_fold.items():
        parents = [change.values.get("dam"), *(share.tag for share in sires_of(change.values))]
        kin.add_edges_from(
            (tag.casefold(), fold) for tag in parents if tag and tag.casefold() in by_fold
        )
    for generation in nx.topological_generations(kin):
        yield [by_fold[fold] for fold in generation]
