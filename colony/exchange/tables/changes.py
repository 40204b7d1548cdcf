"""The difference between rows that are to be and the rows of the book."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from colony.exchange.folder.noun import Noun, NounRow
from colony.exchange.tables.checks import differing


@dataclass(frozen=True)
class Change:
    """One row to write: a new one with all its values, or those that a row of the book gets."""

    values: Mapping[str, Any]
    booked: NounRow | None = None

    def name(self, column: str) -> str:
        """The folded name in a column, as it will be or as the book has it."""
        values = self.values if self.booked is None else {**self.booked.values, **self.values}
        name: str = values[column]
        return name.casefold()


Changes = Mapping[str, list[Change]]
"""What is to be written, by noun."""


def new_row(noun: Noun, values: Mapping[str, Any]) -> Change:
    """A row that the book does not have; a column without a value has what an empty cell means."""
    return Change({column.name: column.empty for column in noun.columns} | dict(values))


def change(noun: Noun, values: Mapping[str, Any], booked: NounRow | None) -> Change | None:
    """What a row changes, or None where the book has it so already."""
    if booked is None:
        return new_row(noun, values)
    whole = NounRow(0, {**booked.values, **values})
    changed = {name: whole.values[name] for name in differing(noun, whole, booked)}
    return Change(changed, booked) if changed else None
