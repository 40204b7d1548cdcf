"""Which column of a breeder's own sheet means what."""

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from colony.notation.fields.animals import SHEET_FIELDS
from colony.notation.fields.field import Field
from colony.refusals.exchange import (
    BadMapping,
    FieldTwice,
    NoSuchColumn,
    NoSuchField,
    NoTagColumn,
)

IGNORE = "ignore"

FIELDS: Mapping[str, Field] = {field.sheet_name: field for field in SHEET_FIELDS}
"""Each field of a sheet by the name that ``--map`` gives it."""

UNIT_FIELDS = {"width": ("mm", "cm", "m", "in"), "mass": ("g", "kg", "oz", "lb")}
_UNIT_WORDS = {"inch": "in", "inches": "in", '"': "in", "grams": "g", "lbs": "lb"}
_BY_HEADING = {
    heading.replace("/", " "): name
    for name, field in FIELDS.items()
    for heading in (name.replace("_", "/"), *field.headings.split())
}


@dataclass(frozen=True)
class Columns:
    """Where each field stands, the units that headings name, and the columns that mean nothing."""

    places: Mapping[str, int]
    units: Mapping[str, str]
    ignored: tuple[str, ...]


def match_headings(path: str, headings: Sequence[str], mappings: Sequence[str]) -> Columns:
    """Find the field of each column, by what the user says and then by its heading.

    Parameters
    ----------
    mappings
        ``COLUMN=FIELD`` each; the field ``ignore`` leaves a column out.

    Raises
    ------
    BadMapping, NoSuchColumn, NoSuchField
        A mapping cannot be followed.
    FieldTwice, NoTagColumn
        The columns that there are do not make a list of animals.
    """
    mapped = _mapped(headings, mappings)
    places: dict[str, int] = {}
    units: dict[str, str] = {}
    for place, heading in enumerate(headings):
        field, unit = _meaning(heading)
        field = mapped.get(place, field)
        if field is None or field == IGNORE:
            continue
        if field in places:
            raise FieldTwice(headings[places[field]], heading, field)
        places[field] = place
        if unit in UNIT_FIELDS.get(field, ()):
            units[field] = unit
    if "tag" not in places:
        raise NoTagColumn(path, list(headings))
    known = set(places.values())
    ignored = [h for place, h in enumerate(headings) if place not in known]
    return Columns(places, units, tuple(h for h in ignored if h))


def _mapped(headings: Sequence[str], mappings: Sequence[str]) -> dict[int, str]:
    folded = [heading.casefold() for heading in headings]
    mapped = {}
    for mapping in mappings:
        column, equals, field = (part.strip() for part in mapping.rpartition("="))
        field = field.casefold()
        if not (column and equals and field):
            raise BadMapping(mapping)
        if column.casefold() not in folded:
            raise NoSuchColumn(column, list(headings))
        if field not in FIELDS and field != IGNORE:
            raise NoSuchField(field, [*FIELDS, IGNORE])
        mapped[folded.index(column.casefold())] = field
    return mapped


def _meaning(heading: str) -> tuple[str | None, str]:
    """The field of a heading, and the unit at its end: ``DW (in)`` is a width in inches."""
    words = re.sub(r"[\s_./()\[\]#:,-]+", " ", heading.casefold()).strip()
    if words in _BY_HEADING:
        return _BY_HEADING[words], ""
    head, _, last = words.rpartition(" ")
    unit = _UNIT_WORDS.get(last, last)
    field = _BY_HEADING.get(head)
    return (field, unit) if unit in UNIT_FIELDS.get(field or "", ()) else (None, "")
