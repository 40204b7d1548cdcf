"""Which column of a breeder's own sheet means what."""

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from colony.refusals.exchange import (
    BadMapping,
    FieldTwice,
    NoSuchColumn,
    NoSuchField,
    NoTagColumn,
)

IGNORE = "ignore"

FIELDS: Mapping[str, str] = {
    "tag": "tag id animal ray code ring number no number/tag animal/id animal/no tag/id tag/no",
    "name": "name nickname call/name",
    "species": "species kind scientific/name",
    "sex": "sex gender m/f f/m",
    "born": "born birth dob birthday birth/date date/of/birth born/on birthdate date/born",
    "dam": "dam mother mum mom female/parent dam/tag dam/id mother/id",
    "sire": "sire sires father dad male/parent possible/sires sire/tag sire/id father/id",
    "origin": "origin source provenance",
    "arrived": "arrived arrival arrival/date date/arrived acquired acquired/on date/acquired bought",
    "arrived_from": "arrived/from from supplier seller breeder vendor bought/from acquired/from",
    "transponder": "transponder chip microchip pit pit/tag chip/no chip/number rfid",
    "line": "line strain bloodline morph",
    "held_back": "held/back hold/back holdback keeper keep",
    "reserved_for": "reserved/for reserved customer buyer",
    "breeding_ban": "breeding/ban do/not/breed",
    "mature_since": "mature/since mature matured",
    "status": "status state",
    "ended_on": "ended/on ended end/date left left/on",
    "ended_why": "ended/why why reason cause cause/of/death",
    "sold_on": "sold/on sold sale/date date/sold",
    "died_on": "died/on died death death/date date/of/death dod",
    "tank": "tank tank/code location place pond vat",
    "width": "width disc/width dw disc disk/width size diameter",
    "mass": "mass weight wt",
    "measured_on": "measured/on measured date/measured measuring/date",
    "note": "note notes remark remarks comment comments",
}
"""Each field of a sheet and the headings usual for it; a slash stands for a space."""

UNIT_FIELDS = {"width": ("mm", "cm", "m", "in"), "mass": ("g", "kg", "oz", "lb")}
_UNIT_WORDS = {"inch": "in", "inches": "in", '"': "in", "grams": "g", "lbs": "lb"}
_BY_HEADING = {
    heading.replace("/", " "): field
    for field, headings in FIELDS.items()
    for heading in (field.replace("_", "/"), *headings.split())
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
    said = _said(headings, mappings)
    places: dict[str, int] = {}
    units: dict[str, str] = {}
    for place, heading in enumerate(headings):
        field, unit = _meaning(heading)
        field = said.get(place, field)
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


def _said(headings: Sequence[str], mappings: Sequence[str]) -> dict[int, str]:
    folded = [heading.casefold() for heading in headings]
    said = {}
    for mapping in mappings:
        column, equals, field = (part.strip() for part in mapping.rpartition("="))
        field = field.casefold()
        if not (column and equals and field):
            raise BadMapping(mapping)
        if column.casefold() not in folded:
            raise NoSuchColumn(column, list(headings))
        if field not in FIELDS and field != IGNORE:
            raise NoSuchField(field, [*FIELDS, IGNORE])
        said[folded.index(column.casefold())] = field
    return said


def _meaning(heading: str) -> tuple[str | None, str]:
    """The field of a heading, and the unit at its end: ``DW (in)`` is a width in inches."""
    words = re.sub(r"[\s_./()\[\]#:,-]+", " ", heading.casefold()).strip()
    if words in _BY_HEADING:
        return _BY_HEADING[words], ""
    head, _, last = words.rpartition(" ")
    unit = _UNIT_WORDS.get(last, last)
    field = _BY_HEADING.get(head)
    return (field, unit) if unit in UNIT_FIELDS.get(field or "", ()) else (None, "")
