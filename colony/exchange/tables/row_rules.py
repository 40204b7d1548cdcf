"""Hold the rows of a file to the rules of the table that they are written to."""

from collections.abc import Iterator, Mapping
from typing import Any

from colony.exchange.folder.noun import Noun, NounColumn, NounRow
from colony.exchange.folder.nouns import BY_NAME
from colony.notation.days import Day
from colony.records.rules import Rule, Rules


def refers(column: NounColumn) -> bool:
    """Whether a column names a row of another noun, or a species."""
    return column.kind in BY_NAME or column.kind == "species"


def record_values(noun: Noun, row: NounRow) -> dict[str, Any]:
    """The values of a row under the columns of its table, names still where ids will be."""
    values: dict[str, Any] = {}
    for column in noun.columns:
        value = row.values.get(column.name)
        if refers(column):
            values[f"{column.name}_id"] = value
        elif isinstance(value, Day):
            values |= {column.name: value.first, f"{column.name}_precision": value.precision}
        else:
            values[column.name] = value
    return values


def broken_rules(noun: Noun, row: NounRow, rules: Rules) -> Iterator[Rule]:
    """Each rule that a row breaks, of those whose columns the file has."""
    values = record_values(noun, row)
    for rule in rules:
        if values.keys() >= set(rule.columns) and not rule.keeps(values):
            yield rule


NounRules = Mapping[str, Rules]
"""The rules of the table of each noun."""
