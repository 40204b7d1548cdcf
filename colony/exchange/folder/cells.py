"""How the cells of a colony in plain files are read and written, by kind."""

import math
from collections.abc import Callable, Mapping
from datetime import date
from typing import Any

from colony.exchange.tables.sires import read_sires, write_sires
from colony.notation.days import Day, parse_day_as_known
from colony.notation.fields.field import Field
from colony.notation.tags import parse_tag, parse_text
from colony.notation.transponders import parse_transponder
from colony.refusals.cells import CellNeeded, NotANumber, NotAWholeNumber, NotOneOf
from colony.refusals.notation import UnreadableDay

_MOST_DIGITS = 9
_EXACT = 1e15
"""Below this every whole float is written in digits alone and read back the same."""
_YES_NO = {"yes": True, "no": False}


def read_noun_cell(column: Field, cell: str) -> Any:  # noqa: ANN401 - each kind has its own type
    """Read a cell as its column says; an empty one as what that means there.

    Raises
    ------
    WrongUse
        The cell cannot be read; the sentence says what could.
    """
    if not cell:
        if column.needed:
            raise CellNeeded(column.name)
        return column.empty
    return _READERS.get(column.kind, _reference)(cell, column)


def write_noun_cell(column: Field, value: Any) -> str:  # noqa: ANN401 - the same
    """Write a value so that `read_noun_cell` takes it back."""
    if value is None or value == ():
        return ""
    if column.kind == "sires":
        return write_sires(value)
    if column.kind == "tags":
        return "; ".join(value)
    if column.kind == "yes_no":
        return "yes" if value else "no" if column.needed else ""
    if isinstance(value, float):
        return f"{value:.0f}" if value.is_integer() and abs(value) < _EXACT else repr(value)
    return str(value)


def _text(cell: str, column: Field) -> str:
    return parse_text(cell, column.words_for_it)


def _reference(cell: str, _column: Field) -> str:
    return parse_text(cell, "name")


def _day(cell: str, _column: Field) -> date:
    day = _known_day(cell, _column)
    if day.precision != "day":
        raise UnreadableDay(cell, exact=True)
    return day.first


def _known_day(cell: str, _column: Field) -> Day:
    if not cell[0].isdigit():
        raise UnreadableDay(cell)
    return parse_day_as_known(cell, date.max)


def _whole(least: int) -> Callable[[str, Field], int]:
    def read(cell: str, _column: Field) -> int:
        readable = cell.isascii() and cell.isdigit() and len(cell) <= _MOST_DIGITS
        if not readable or int(cell) < least:
            raise NotAWholeNumber(cell, least)
        return int(cell)

    return read


def _number(cell: str, _column: Field) -> float:
    try:
        number = float(cell) if cell.isascii() and "_" not in cell else math.nan
    except ValueError:
        number = math.nan
    if not math.isfinite(number):
        raise NotANumber(cell)
    return number


def _word(cell: str, column: Field) -> str:
    found = next((word for word in column.words if word.casefold() == cell.casefold()), None)
    if found is None:
        raise NotOneOf(cell, column.words_for_it, list(column.words))
    return found


def _yes_no(cell: str, _column: Field) -> bool:
    if cell.casefold() not in _YES_NO:
        raise NotOneOf(cell, "yes or no", list(_YES_NO))
    return _YES_NO[cell.casefold()]


def _tags(cell: str, _column: Field) -> tuple[str, ...]:
    tags: dict[str, str] = {}
    for part in filter(str.strip, cell.split(";")):
        tag = parse_tag(part)
        tags.setdefault(tag.casefold(), tag)
    return tuple(tags.values())


_READERS: Mapping[str, Callable[[str, Field], Any]] = {
    "text": _text,
    "label": _text,
    "personal": _text,
    "tag": lambda cell, _: parse_tag(cell),
    "tags": _tags,
    "day": _day,
    "known_day": _known_day,
    "count": _whole(0),
    **dict.fromkeys(("positive", "length_mm", "mass_g", "volume_l"), _whole(1)),
    "number": _number,
    "word": _word,
    "yes_no": _yes_no,
    "sires": lambda cell, _: read_sires(cell, lambda _: "=" not in cell),
    "transponder": lambda cell, _: parse_transponder(cell),
}
