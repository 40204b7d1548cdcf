"""What a folder gets wrong across its rows: rows twice, names of nothing, two tanks at once."""

from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from itertools import pairwise
from typing import Any

from colony.exchange.folder.cells import write_noun_cell
from colony.exchange.folder.folder import ColonyFolder, Tables
from colony.exchange.folder.noun import Noun, NounColumn, NounRow
from colony.exchange.folder.nouns import BY_NAME, NOUNS, REFERRED
from colony.exchange.sheet.rows import same_sires
from colony.exchange.tables.row_rules import NounRules, broken_rules, refers
from colony.exchange.text.faults import Fault
from colony.notation.tags import nearest_tags
from colony.refusals.base import WrongUse
from colony.refusals.cells import (
    BookHasItOtherwise,
    NothingByThatName,
    RowCannotBe,
    RowTwice,
    TwoTanksOnADay,
    UnknownSpeciesCell,
)

Key = tuple[Any, ...]


def check_folder(
    folder: ColonyFolder, book: Tables, species: Sequence[str], rules: NounRules
) -> list[Fault]:
    """List every fault of a folder beside the rows that the book has."""
    faults = list(folder.faults)
    for noun in NOUNS:
        rows, booked = folder.tables[noun.name], keyed(noun, book[noun.name])
        faults += _twice(noun, rows)
        faults += _otherwise(noun, rows, booked)
        for row in rows:
            faults += [
                _fault(noun, row, rule.field, RowCannotBe(rule.sentence))
                for rule in broken_rules(noun, row, rules[noun.name])
            ]
    faults += _names_of_nothing(folder, book, species)
    faults += _two_tanks(folder.tables, book)
    return faults


def keyed(noun: Noun, rows: Sequence[NounRow]) -> dict[Key, NounRow]:
    """Rows by what tells them apart; where that is all they say, by how often it was said too."""
    seen: dict[Key, int] = defaultdict(int)
    found: dict[Key, NounRow] = {}
    for row in rows:
        key = _key(noun, row)
        seen[key] += 1
        found.setdefault(key if noun.key else (*key, seen[key]), row)
    return found


def differing(noun: Noun, one: NounRow, other: NounRow) -> list[str]:
    """The columns in which two rows differ."""
    return [c.name for c in noun.columns if not _same(c, one.values[c.name], other.values[c.name])]


def _key(noun: Noun, row: NounRow) -> Key:
    columns = noun.key or [column.name for column in noun.columns]
    return tuple(_folded(row.values[name]) for name in columns)


def _folded(value: Any) -> Any:  # noqa: ANN401 - whatever a cell holds
    return value.casefold() if isinstance(value, str) else value


def _same(column: NounColumn, one: Any, other: Any) -> bool:  # noqa: ANN401 - the same
    if column.kind == "sires":
        return same_sires(one, other)
    if column.kind in BY_NAME:
        return bool(_folded(one) == _folded(other))
    return bool(one == other)


def _fault(noun: Noun, row: NounRow, name: str, wrong: WrongUse) -> Fault:
    value = write_noun_cell(noun.column(name), row.values[name])
    return Fault(noun.file, row.line, name, value, wrong.sentence)


def _twice(noun: Noun, rows: Sequence[NounRow]) -> Iterator[Fault]:
    first: dict[Key, NounRow] = {}
    for row in rows if noun.key else ():
        earlier = first.setdefault(_key(noun, row), row)
        columns = differing(noun, row, earlier)
        if columns:
            said = (row.values[name] for name in noun.key)
            what = " ".join(str(one) for one in said if one is not None)
            yield _fault(noun, row, noun.label, RowTwice(what, earlier.line, columns))


def _otherwise(
    noun: Noun, rows: Sequence[NounRow], booked: Mapping[Key, NounRow]
) -> Iterator[Fault]:
    for row in rows if noun.key else ():
        known = booked.get(_key(noun, row))
        columns = differing(noun, row, known) if known else []
        if columns:
            yield _fault(noun, row, columns[0], BookHasItOtherwise(columns))


def _names_of_nothing(
    folder: ColonyFolder, book: Tables, species: Sequence[str]
) -> Iterator[Fault]:
    known = {
        noun.name: folder.names[noun.name]
        | {noun.called(row.values).casefold() for row in book[noun.name]}
        for noun in NOUNS
        if noun.name in REFERRED
    }
    for noun in NOUNS:
        for row in folder.tables[noun.name]:
            for column, name in _references(noun, row):
                if column.kind == "species":
                    if name not in species:
                        yield _fault(
                            noun, row, column.name, UnknownSpeciesCell(name, list(species))
                        )
                elif name.casefold() not in known[_target(column)]:
                    near = nearest_tags(name, known[_target(column)])
                    wrong = NothingByThatName(BY_NAME[_target(column)].one, name, near)
                    yield _fault(noun, row, column.name, wrong)


def _references(noun: Noun, row: NounRow) -> Iterator[tuple[NounColumn, str]]:
    """Each name in a row that must be the name of something."""
    for column in noun.columns:
        value = row.values[column.name]
        if column.kind == "sires":
            yield from ((column, share.tag) for share in value if share.tag)
        elif column.kind == "tags":
            yield from ((column, tag) for tag in value)
        elif refers(column) and (name := column.referred(row.values)) is not None:
            yield column, name


def _target(column: NounColumn) -> str:
    return "animals" if column.kind in ("sires", "tags") else column.kind


def _two_tanks(tables: Tables, book: Tables) -> Iterator[Fault]:
    noun = BY_NAME["placements"]
    known = keyed(noun, book["placements"])
    new = [row for row in tables["placements"] if _key(noun, row) not in known]
    by_animal: dict[str, list[NounRow]] = defaultdict(list)
    for row in (*known.values(), *keyed(noun, new).values()):
        by_animal[_folded(row.values["animal"])].append(row)
    for stays in by_animal.values():
        stays.sort(key=lambda row: row.values["entered_on"])
        for one, after in pairwise(stays):
            left = one.values["left_on"]
            if left is None or left > after.values["entered_on"]:
                row, other = (after, one) if after.line else (one, after)
                wrong = TwoTanksOnADay(row.values["animal"], other.values["tank"], other.line)
                yield _fault(noun, row, "entered_on", wrong)
