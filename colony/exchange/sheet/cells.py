"""What each cell of a breeder's own sheet of animals says."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from datetime import date
from functools import cache

from colony.exchange.folder.cells import read_noun_cell
from colony.exchange.text.days import read_sheet_day
from colony.notation.days import Day
from colony.notation.fields.field import Field
from colony.notation.measures import parse_length_mm, parse_mass_g
from colony.notation.tags import parse_tag, parse_text
from colony.notation.transponders import parse_transponder
from colony.refusals.cells import NotOneOf, UnknownSpeciesCell

_EMPTY = frozenset(["", "-", "--", "?", "??", "n/a", "na", "nil", "none", "unknown", "unk"])

_YES_NO = {
    **dict.fromkeys(["y", "yes", "true", "1", "x", "✓"], True),
    **dict.fromkeys(["n", "no", "false", "0"], False),
}
_HYBRID = "hybrid"
_AS_WRITTEN = ("text", "tag")
"""Kinds that may well be a dash or a question mark."""


@dataclass(frozen=True)
class Reading:
    """How a sheet is to be read: its dates, its bare numbers, and the species that there are."""

    today: date
    date_order: str
    units: Mapping[str, str]
    species: Mapping[str, str]
    """Every folded name of a species and the word that the book has for it."""


def says_nothing(field: Field, cell: str) -> bool:
    """Tell whether a cell is empty, or says in one of the usual ways that nothing is known."""
    return not cell or (field.kind not in _AS_WRITTEN and cell.casefold() in _EMPTY)


def read_cell(field: Field, cell: str, reading: Reading) -> object:
    """Read one cell as the value of its field; dates as `Day`, widths in mm, masses in g.

    Raises
    ------
    WrongUse
        The cell cannot be that field; the sentence says what could.
    """
    return _READERS[field.kind](field, cell, reading)


@cache
def ways_to_write(field: Field) -> dict[str, str]:
    """Every way to write a word of a field, in lower case, and the word that is meant."""
    words = {word.casefold(): word for word in field.words}
    for word, synonyms in field.synonyms.items():
        words |= {synonym.replace("/", " "): word for synonym in synonyms.split()}
    return words


def _word(field: Field, cell: str, _reading: Reading) -> object:
    return _one_of(ways_to_write(field), field.words_for_it, cell)


def _yes_no(_field: Field, cell: str, _reading: Reading) -> object:
    return _one_of(_YES_NO, "yes or no", cell)


def _one_of(words: Mapping[str, object], what: str, cell: str) -> object:
    try:
        return words[cell.casefold()]
    except KeyError:
        first: dict[object, str] = {}
        for word, meaning in words.items():
            first.setdefault(meaning, word)
        raise NotOneOf(cell, what, list(first.values())) from None


def _text(field: Field, cell: str, _reading: Reading) -> str:
    return parse_text(cell, field.words_for_it)


def _day(_field: Field, cell: str, reading: Reading) -> Day:
    return read_sheet_day(cell, reading.date_order, reading.today)


def _species(_field: Field, cell: str, reading: Reading) -> object:
    if cell.casefold() == _HYBRID:
        return None
    try:
        return reading.species[cell.casefold()]
    except KeyError:
        raise UnknownSpeciesCell(cell, sorted(set(reading.species.values()))) from None


def _name(_field: Field, cell: str, _reading: Reading) -> str:
    return parse_tag(cell)


def _number(field: Field, cell: str, _reading: Reading) -> object:
    return read_noun_cell(field, cell)


_READERS: Mapping[str, Callable[[Field, str, Reading], object]] = {
    "text": _text,
    "tag": _name,
    "animals": _name,
    "tanks": _name,
    "species": _species,
    "word": _word,
    "yes_no": _yes_no,
    "day": _day,
    "known_day": _day,
    "transponder": lambda _, cell, __: parse_transponder(cell),
    "length_mm": lambda _, cell, reading: parse_length_mm(cell, reading.units["width"]),
    "mass_g": lambda _, cell, reading: parse_mass_g(cell, reading.units["mass"]),
    **dict.fromkeys(("count", "positive", "number"), _number),
}
"""How a cell of each kind is read; possible sires are, beside the tags of the whole sheet."""
