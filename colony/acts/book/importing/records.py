"""Write the rows of an exported colony as records, each named by its label."""

from collections.abc import Mapping, Sequence
from typing import Any

from sqlmodel import Session

from colony.acts.book.importing.imported import Progress, by_steps
from colony.acts.book.labels import MADE_NAMES
from colony.acts.book.tables import RECORDS, read_ids
from colony.exchange.folder.noun import Noun, NounColumn, NounRow
from colony.exchange.folder.nouns import BY_NAME, NOUNS, REFERRED
from colony.exchange.tables.row_rules import refers
from colony.notation.days import Day
from colony.notation.shares import SireShare
from colony.records import PairingSire, PossibleSire, VetPatient

_KIN = ("dam", "sire", "litter")
"""References of an animal to rows that are written after it."""
_BESIDE = ("sires", "tags")
"""Kinds of columns that are records of their own."""


class RecordWriter:
    """One import's writing: noun after noun, the family of animals last."""

    def __init__(self, session: Session, progress: Progress) -> None:
        self.session, self.progress = session, progress
        self.ids = read_ids(session)
        self.written: dict[str, list[tuple[NounRow, Any]]] = {}

    def write(self, rows: Mapping[str, Sequence[NounRow]]) -> None:
        """Write rows that were checked, none of which the book has."""
        report = by_steps(self.progress, "writing", sum(map(len, rows.values())))
        done = 0
        for noun in NOUNS:
            self._write_noun(noun, rows[noun.name])
            done += len(rows[noun.name])
            report(done)
        for row, animal in self.written["animals"]:
            for column in BY_NAME["animals"].columns:
                if column.name in _KIN:
                    setattr(animal, f"{column.name}_id", self._id(column, row))
        self.session.flush()
        self._write_sires()
        self._write_patients()
        self.session.flush()

    def _write_noun(self, noun: Noun, rows: Sequence[NounRow]) -> None:
        record: Any = RECORDS[noun.name]
        written = [(row, record(**self._facts(noun, row))) for row in rows]
        self.session.add_all(record for _, record in written)
        self.session.flush()
        self.written[noun.name] = written
        if noun.name in REFERRED:
            labels = self.ids.setdefault(noun.name, {})
            labels.update((noun.called(row.values).casefold(), one.id) for row, one in written)

    def _facts(self, noun: Noun, row: NounRow) -> dict[str, Any]:
        facts: dict[str, Any] = {}
        for column in noun.columns:
            value = row.values[column.name]
            if column.kind in _BESIDE or MADE_NAMES.get(noun.name) == column.name:
                continue
            if refers(column):
                if noun.name != "animals" or column.name not in _KIN:
                    facts[f"{column.name}_id"] = self._id(column, row)
            elif isinstance(value, Day):
                facts |= {column.name: value.first, f"{column.name}_precision": value.precision}
            else:
                facts[column.name] = value
        return facts

    def _id(self, column: NounColumn, row: NounRow) -> int | None:
        name = column.referred(row.values)
        return None if name is None else self.ids[column.kind][name.casefold()]

    def _write_sires(self) -> None:
        """Possible sires of litters and animals, and the males of pairings."""
        for row, litter in self.written["litters"]:
            self.session.add_all(
                PossibleSire(litter_id=litter.id, sire_id=self._animal(one), share=one.share)
                for one in row.values["sires"]
            )
        for row, animal in self.written["animals"]:
            self.session.add_all(
                PossibleSire(animal_id=animal.id, sire_id=self._animal(one), share=one.share)
                for one in row.values["possible_sires"]
            )
        for row, pairing in self.written["pairings"]:
            self.session.add_all(
                PairingSire(pairing_id=pairing.id, sire_id=self.ids["animals"][tag.casefold()])
                for tag in row.values["sires"]
            )

    def _write_patients(self) -> None:
        """The animals that a vet saw."""
        for row, visit in self.written["vet_visits"]:
            self.session.add_all(
                VetPatient(visit_id=visit.id, animal_id=self.ids["animals"][tag.casefold()])
                for tag in row.values["animals"]
            )

    def _animal(self, one: SireShare) -> int | None:
        return None if one.tag is None else self.ids["animals"][one.tag.casefold()]
