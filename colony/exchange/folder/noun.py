"""The shapes of a colony in plain files: a noun with its columns, and a row as values."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from colony.notation.fields.field import Field


@dataclass(frozen=True)
class Noun:
    """One file: its columns, the subject that writes it, and what tells one row from another.

    Without a `key` a row is told by all it says, and may stand twice.
    """

    name: str
    columns: tuple[Field, ...]
    subject: str
    key: tuple[str, ...] = ()
    singular: str = ""
    called_by: tuple[str, ...] = ()

    @property
    def file(self) -> str:
        """The name of its file."""
        return f"{self.name}.csv"

    @property
    def one(self) -> str:
        """What one row is called in a sentence."""
        return self.singular or self.name[:-1]

    @property
    def label(self) -> str:
        """The column that is named when a row is at fault, and mostly calls it."""
        return self.key[0]

    @property
    def labels(self) -> tuple[str, ...]:
        """The columns by which other files refer to a row."""
        return self.called_by or self.key[:1]

    def column(self, name: str) -> Field:
        """The column of a name."""
        return next(column for column in self.columns if column.name == name)

    def called(self, values: Mapping[str, Any]) -> str:
        """What other files call a row."""
        return joined(*(values[column] for column in self.labels))


@dataclass(frozen=True)
class NounRow:
    """One row as values by field, and as the cells of the file that say something.

    A row of the book has the `line` 0 and the `id` of its record.
    """

    line: int
    values: Mapping[str, Any]
    cells: Mapping[str, str] = field(default_factory=dict, compare=False)
    id: int = field(default=0, compare=False)


@dataclass(frozen=True)
class SpeciesValues:
    """What a book says of a species otherwise than a new one does: names, numbers, sources."""

    scientific_name: str | None
    english_name: str | None
    traits: Mapping[str, tuple[float, str]]


def joined(*names: str) -> str:
    """The name of a row within another, such as a batch of a food."""
    return " / ".join(names)


def referred(column: Field, values: Mapping[str, Any]) -> str | None:
    """What a cell of a column calls the row that it refers to."""
    name = values[column.name]
    return name if name is None or column.within is None else joined(values[column.within], name)
