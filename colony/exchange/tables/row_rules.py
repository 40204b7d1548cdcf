"""Hold the rows of a file to the rules of the table that they are written to."""

from collections.abc import Callable, Iterable, Iterator
from typing import Any

from colony.exchange.folder.noun import Noun, NounRow
from colony.notation.fields.field import Field
from colony.records.rules import Rule, Rules


def broken_rules(
    noun: Noun, rows: Iterable[NounRow], rules: Rules
) -> Iterator[tuple[NounRow, Rule]]:
    """Each row with each rule that it breaks, of those whose columns the file has."""
    readers = dict(column for each in noun.columns for column in _record_columns(each))
    held = [rule for rule in rules if readers.keys() >= set(rule.columns)]
    used = {column: readers[column] for rule in held for column in rule.columns}
    for row in rows:
        values = {column: read(row) for column, read in used.items()}
        for rule in held:
            if not rule.keeps(values):
                yield row, rule


def _record_columns(column: Field) -> Iterator[tuple[str, Callable[[NounRow], Any]]]:
    """The columns of a table that one of a file is written to; names still where ids will be."""
    name = column.name
    if column.refers:
        yield f"{name}_id", lambda row: row.values.get(name)
    elif column.kind == "known_day":
        yield name, lambda row: row.values[name] and row.values[name].first
        yield f"{name}_precision", lambda row: row.values[name] and row.values[name].precision
    else:
        yield name, lambda row: row.values.get(name)
