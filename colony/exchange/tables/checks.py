"""What rows of one noun get wrong: by themselves, one beside another, and beside the book."""

from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import Any

from colony.exchange.folder.noun import Noun, NounRow, referred
from colony.exchange.folder.nouns import BY_NAME
from colony.exchange.tables.reading import Source
from colony.exchange.tables.row_rules import broken_rules
from colony.exchange.tables.sires import same_sires
from colony.exchange.text.faults import Fault
from colony.notation.fields.field import Field
from colony.notation.tags import nearest_tags
from colony.records.rules import Rules
from colony.refusals.cells import (
    NothingByThatName,
    RowCannotBe,
    RowTwice,
    TransponderTwice,
    UnknownSpeciesCell,
)

Key = tuple[Any, ...]
Known = Mapping[str, Mapping[str, str]]
"""What rows may name, by noun: every folded name, and how it is written."""


def key_of(noun: Noun, row: NounRow) -> Key:
    """What tells a row from another; without a key that is all it says."""
    columns = noun.key or [column.name for column in noun.columns]
    return tuple(folded(row.values[name]) for name in columns)


def keyed(noun: Noun, rows: Sequence[NounRow]) -> dict[Key, NounRow]:
    """Rows by what tells them apart; where that is all they say, by how often it was said too."""
    seen: dict[Key, int] = defaultdict(int)
    found: dict[Key, NounRow] = {}
    for row in rows:
        key = key_of(noun, row)
        seen[key] += 1
        found.setdefault(key if noun.key else (*key, seen[key]), row)
    return found


def differing(noun: Noun, row: NounRow, other: NounRow) -> list[str]:
    """The columns in which two rows of one key differ."""
    return [
        column.name
        for column in noun.columns
        if column.name not in noun.key
        and not _same(column, row.values.get(column.name), other.values.get(column.name))
    ]


def folded(value: Any) -> Any:  # noqa: ANN401 - whatever a cell holds
    """A value as it is compared: upper and lower case are the same."""
    return value.casefold() if isinstance(value, str) else value


def _same(column: Field, value: Any, other: Any) -> bool:  # noqa: ANN401 - whatever a cell holds
    if value == other:
        return True
    if column.kind == "sires":
        return same_sires(value or (), other or ())
    return column.kind in BY_NAME and bool(folded(value) == folded(other))


def without_repeats(
    source: Source, noun: Noun, rows: Sequence[NounRow]
) -> tuple[list[NounRow], list[Fault]]:
    """The first row of each key, and a fault for each later one that says something else."""
    first: dict[Key, NounRow] = {}
    faults = []
    for row in rows:
        earlier = first.setdefault(key_of(noun, row), row)
        if earlier is not row and (columns := differing(noun, row, earlier)):
            key = (row.values[name] for name in noun.key)
            what = " ".join(str(part) for part in key if part is not None)
            faults.append(source.fault(row, noun.label, RowTwice(what, earlier.line, columns)))
    return list(first.values()), faults


def against_rules(
    source: Source, noun: Noun, rows: Iterable[NounRow], rules: Rules
) -> Iterator[Fault]:
    """A fault for each rule of its table that a row breaks."""
    for row, rule in broken_rules(noun, rows, rules):
        yield source.fault(row, rule.field, RowCannotBe(rule.sentence))


def names_of_nothing(
    source: Source, noun: Noun, rows: Iterable[NounRow], known: Known
) -> Iterator[Fault]:
    """A fault for each name that is the name of nothing; nouns that are not in `known` are free."""
    columns = [column for column in noun.columns if _target(column) in known]
    for row in rows:
        for column in columns:
            target = _target(column)
            for name in _names(column, row):
                if (name if target == "species" else name.casefold()) not in known[target]:
                    yield source.fault(row, column.name, _nothing(target, name, known[target]))


def _nothing(
    target: str, name: str, known: Mapping[str, str]
) -> UnknownSpeciesCell | NothingByThatName:
    if target == "species":
        return UnknownSpeciesCell(name, list(known))
    return NothingByThatName(BY_NAME[target].one, name, nearest_tags(name, list(known.values())))


def _target(column: Field) -> str:
    if column.kind in ("sires", "tags"):
        return "animals"
    return column.kind if column.refers else ""


def _names(column: Field, row: NounRow) -> Iterator[str]:
    value = row.values.get(column.name)
    if not value:
        return
    if column.kind == "sires":
        yield from (share.tag for share in value if share.tag)
    elif column.kind == "tags":
        yield from value
    elif (name := referred(column, row.values)) is not None:
        yield name


def transponders_twice(
    source: Source, rows: Iterable[NounRow], book: Iterable[NounRow]
) -> Iterator[Fault]:
    """A fault for each animal with the transponder of another."""
    carriers = {
        row.values["transponder"]: row.values["tag"] for row in book if row.values["transponder"]
    }
    for row in rows:
        number, tag = row.values.get("transponder"), row.values["tag"]
        if number and carriers.setdefault(number, tag).casefold() != tag.casefold():
            yield source.fault(row, "transponder", TransponderTwice(number, carriers[number]))
