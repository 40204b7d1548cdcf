"""What each cell of a breeder's own sheet of animals says."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from datetime import date

from colony.exchange.text.days import read_sheet_day
from colony.notation.days import Day
from colony.notation.measures import parse_length_mm, parse_mass_g
from colony.notation.tags import parse_tag, parse_text
from colony.notation.transponders import parse_transponder
from colony.refusals.cells import NotOneOf, UnknownSpeciesCell

_BLANK = frozenset(["", "-", "--", "?", "??", "n/a", "na", "nil", "none", "unknown", "unk"])

_SEXES = {
    **dict.fromkeys(["f", "female", "fem", "♀", "0.1"], "F"),
    **dict.fromkeys(["m", "male", "♂", "1.0"], "M"),
    **dict.fromkeys(["u", "unsexed", "not sexed", "0.0.1"], "U"),
}
_YES_NO = {
    **dict.fromkeys(["y", "yes", "true", "1", "x", "✓"], True),
    **dict.fromkeys(["n", "no", "false", "0"], False),
}
_STATUSES = {
    **dict.fromkeys(["present", "alive", "active", "here", "in house", "breeding"], "present"),
    **dict.fromkeys(["sold", "rehomed"], "sold"),
    **dict.fromkeys(["died", "dead", "deceased", "euthanised", "euthanized"], "died"),
    **dict.fromkeys(["gone", "left", "lost", "loan", "traded", "elsewhere"], "gone"),
}
_ORIGINS = {
    **dict.fromkeys(["born here", "own", "home bred", "homebred", "here"], "born here"),
    **dict.fromkeys(["bred elsewhere", "captive bred", "captive-bred", "cb"], "bred elsewhere"),
    **dict.fromkeys(["wild", "wild caught", "wild-caught", "wc"], "wild"),
}
ORIGIN_WORDS = frozenset(_ORIGINS)
"""Words for where an animal comes from, in lower case; none is the name of an animal."""
_HYBRID = "hybrid"


@dataclass(frozen=True)
class Reading:
    """How a sheet is to be read: its dates, its bare numbers, and the species that there are."""

    today: date
    date_order: str
    units: Mapping[str, str]
    species: Mapping[str, str]
    """Every folded name of a species and the word that the book has for it."""


def says_nothing(field: str, cell: str) -> bool:
    """Tell whether a cell is empty, or says in one of the usual ways that nothing is known."""
    return not cell or (field not in _TEXTS and field != "tag" and cell.casefold() in _BLANK)


def read_cell(field: str, cell: str, reading: Reading) -> object:
    """Read one cell as the value of its field; dates as `Day`, widths in mm, masses in g.

    Raises
    ------
    WrongUse
        The cell cannot be that field; the sentence says what could.
    """
    return _READERS[field](cell, reading)


def _word(words: Mapping[str, object], what: str) -> Callable[[str, Reading], object]:
    def read(cell: str, _reading: Reading) -> object:
        try:
            return words[cell.casefold()]
        except KeyError:
            raise NotOneOf(cell, what, _one_each(words)) from None

    return read


def _one_each(words: Mapping[str, object]) -> list[str]:
    first: dict[object, str] = {}
    for word, meaning in words.items():
        first.setdefault(meaning, word)
    return list(first.values())


def _text(field: str) -> Callable[[str, Reading], object]:
    return lambda cell, _reading: parse_text(cell, field.replace("_", " "))


def _day(cell: str, reading: Reading) -> Day:
    return read_sheet_day(cell, reading.date_order, reading.today)


def _species(cell: str, reading: Reading) -> object:
    if cell.casefold() == _HYBRID:
        return None
    try:
        return reading.species[cell.casefold()]
    except KeyError:
        raise UnknownSpeciesCell(cell, sorted(set(reading.species.values()))) from None


_TEXTS = ("name", "arrived_from", "line", "reserved_for", "breeding_ban", "ended_why", "note")
_DAYS = ("born", "arrived", "mature_since", "ended_on", "sold_on", "died_on", "measured_on")
_READERS: Mapping[str, Callable[[str, Reading], object]] = {
    "tag": lambda cell, _: parse_tag(cell),
    "dam": lambda cell, _: parse_tag(cell),
    "tank": lambda cell, _: parse_tag(cell),
    "species": _species,
    "sex": _word(_SEXES, "sex"),
    "origin": _word(_ORIGINS, "origin"),
    "held_back": _word(_YES_NO, "yes or no"),
    "status": _word(_STATUSES, "status"),
    "transponder": lambda cell, _: parse_transponder(cell),
    "width": lambda cell, reading: parse_length_mm(cell, reading.units["width"]),
    "mass": lambda cell, reading: parse_mass_g(cell, reading.units["mass"]),
    **{field: _text(field) for field in _TEXTS},
    **dict.fromkeys(_DAYS, _day),
}
