"""What a row of a sheet means for the record of its animal."""

from collections.abc import Mapping
from datetime import date
from typing import Any

from colony.exchange.folder.noun import NounRow
from colony.exchange.folder.nouns import BY_NAME
from colony.notation.days import Day

ANIMALS = BY_NAME["animals"]
ANCESTOR_NOTE = "Known only as a parent named in an imported file."
"""The note of an animal that has no row of its own yet."""

_AS_NEW = {
    "status": "present",
    "ended_on": None,
    "ended_why": None,
    "last_seen": None,
    "note": None,
}
_END_NOT_KNOWN = "The day is not known: that of the import stands."


def only_named(known: NounRow | None) -> bool:
    """Whether a pup's row was all that named it, so that its own row may still say all."""
    return known is not None and known.values["note"] == ANCESTOR_NOTE


def animal_values(row: NounRow, known: NounRow | None, today: date) -> dict[str, Any]:
    """The values of the animal's record as the row has them; what it does not say is absent."""
    values: dict[str, Any] = dict(_AS_NEW) if only_named(known) else {}
    for column in ANIMALS.columns:
        if column.name in row.values:
            value = row.values[column.name]
            exact = column.kind == "day" and isinstance(value, Day)
            values[column.name] = value.first if exact else value
    if known is not None:
        del values["tag"]
        if values.get("sex") == "U":
            del values["sex"]
    return {**values, **_end(row, None if only_named(known) else known, today)}


def complete(row: NounRow, known: NounRow | None, today: date) -> NounRow:
    """The row as the animal's record will have it, all columns known."""
    before = known.values if known else {c.name: c.empty for c in ANIMALS.columns}
    values = {**before, **animal_values(row, known, today)}
    if values["litter"]:
        values["dam"] = None
    return NounRow(row.line, values, row.cells)


def _end(row: NounRow, known: NounRow | None, today: date) -> Mapping[str, Any]:
    """The day of an end; where none is known, that of the import, and it is said."""
    born = row.values.get("born") or (known.values["born"] if known else None)
    if ended := row.values.get("ended_on"):
        return {"ended_on": max(ended.first, born.first if born else ended.first)}
    gone = row.values.get("status", "present") != "present"
    if gone and (known is None or known.values["ended_on"] is None):
        return {"ended_on": today, "ended_why": _END_NOT_KNOWN}
    return {}
