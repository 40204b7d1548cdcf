"""The shapes of a colony in plain files: a noun with its columns, and a row as values."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any


@dataclass(frozen=True)
class NounColumn:
    """One column: its heading, how its cells are read, and what an empty one means.

    A kind that is the name of a noun refers to a row of it by `Noun.called`; where that takes
    two columns, `within` is the other one beside this.
    """

    name: str
    kind: str = "text"
    needed: bool = False
    empty: Any = None
    words: tuple[str, ...] = ()
    within: str | None = None

    def referred(self, values: Mapping[str, Any]) -> str | None:
        """What a cell of this kind calls the row that it refers to."""
        name = values[self.name]
        return name if name is None or self.within is None else joined(values[self.within], name)


@dataclass(frozen=True)
class Noun:
    """One file: its columns, and those that tell one row from another.

    Without a `key` a row is told by all it says, and may stand twice.
    """

    name: str
    columns: tuple[NounColumn, ...]
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

    def column(self, name: str) -> NounColumn:
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


def needed(
    name: str, kind: str = "text", words: tuple[str, ...] = (), within: str | None = None
) -> NounColumn:
    """Make a column whose cells must not be empty."""
    return NounColumn(name, kind, needed=True, words=words, within=within)


def word(name: str, words: tuple[str, ...], empty: str | None = None) -> NounColumn:
    """Make a column of chosen words, and what an empty cell means there."""
    return NounColumn(name, "word", empty=empty, words=words)


NOTE = NounColumn("note")
