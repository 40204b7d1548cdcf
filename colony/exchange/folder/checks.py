"""What a folder gets wrong: rows against the rules, each other and the book, two tanks at once."""

from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from itertools import pairwise

from colony.exchange.folder.folder import ColonyFolder, Tables
from colony.exchange.folder.noun import Noun, NounRow
from colony.exchange.folder.nouns import BY_NAME, NOUNS, REFERRED
from colony.exchange.tables.checks import (
    Key,
    Known,
    against_rules,
    differing,
    folded,
    key_of,
    keyed,
    names_of_nothing,
    transponders_twice,
    without_repeats,
)
from colony.exchange.tables.kin import check_kin, gather_kin
from colony.exchange.tables.parents import by_tag, litters_by_code, with_parents
from colony.exchange.tables.reading import Source
from colony.exchange.text.faults import Fault
from colony.records.rules import Rules
from colony.refusals.cells import BookHasItOtherwise, TwoTanksOnADay


def check_folder(
    folder: ColonyFolder, book: Tables, species: Sequence[str], rules: Mapping[str, Rules]
) -> list[Fault]:
    """List every fault of a folder beside the rows that the book has."""
    faults = list(folder.faults)
    known = _known(folder, book, species)
    for noun in NOUNS:
        source, rows = Source(noun.file), folder.tables[noun.name]
        if noun.key:
            faults += without_repeats(source, noun, rows)[1]
            faults += _otherwise(source, noun, rows, keyed(noun, book[noun.name]))
        faults += against_rules(source, noun, rows, rules[noun.name])
        faults += names_of_nothing(source, noun, rows, known)
    animals = Source(BY_NAME["animals"].file)
    faults += transponders_twice(animals, folder.tables["animals"], book["animals"])
    in_book = litters_by_code(book["litters"])
    in_file = in_book | litters_by_code(folder.tables["litters"])
    known_kin = by_tag(with_parents(book["animals"], in_book))
    kin = gather_kin(with_parents(folder.tables["animals"], in_file), known_kin)
    faults += check_kin(animals, kin)
    faults += _two_tanks(folder.tables, book)
    return faults


def _known(folder: ColonyFolder, book: Tables, species: Sequence[str]) -> Known:
    known = {
        noun.name: {name: name for name in folder.names[noun.name]}
        | {noun.called(row.values).casefold(): noun.called(row.values) for row in book[noun.name]}
        for noun in NOUNS
        if noun.name in REFERRED
    }
    return known | {"species": {name: name for name in species}}


def _otherwise(
    source: Source, noun: Noun, rows: Sequence[NounRow], booked: Mapping[Key, NounRow]
) -> Iterator[Fault]:
    for row in rows:
        known = booked.get(key_of(noun, row))
        columns = differing(noun, row, known) if known else []
        if columns:
            yield source.fault(row, columns[0], BookHasItOtherwise(columns))


def _two_tanks(tables: Tables, book: Tables) -> Iterator[Fault]:
    noun = BY_NAME["placements"]
    known = keyed(noun, book["placements"])
    new = [row for row in tables["placements"] if key_of(noun, row) not in known]
    by_animal: dict[str, list[NounRow]] = defaultdict(list)
    for row in (*known.values(), *keyed(noun, new).values()):
        by_animal[folded(row.values["animal"])].append(row)
    for stays in by_animal.values():
        stays.sort(key=lambda row: row.values["entered_on"])
        for stay, after in pairwise(stays):
            left = stay.values["left_on"]
            if left is None or left > after.values["entered_on"]:
                row, other = (after, stay) if after.line else (stay, after)
                wrong = TwoTanksOnADay(row.values["animal"], other.values["tank"], other.line)
                yield Source(noun.file).fault(row, "entered_on", wrong)
