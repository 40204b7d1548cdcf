"""What a sheet of animals changes in the book: animals, their measurements and their tanks."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date

from colony.exchange.folder.noun import NounRow
from colony.exchange.folder.nouns import BY_NAME
from colony.exchange.sheet.book import BookRows
from colony.exchange.sheet.meaning import ANCESTOR_NOTE, ANIMALS, animal_values
from colony.exchange.tables.changes import Change, change, new_row
from colony.exchange.tables.kin import KinRow
from colony.exchange.tables.named_parents import NamedParent, named_parents
from colony.notation.fields.animals import MEASURED

_SIZES = {field.sheet_name: field.name for field in MEASURED if field.sheet}


@dataclass
class SheetPlan:
    """All changes of one sheet, and how many animals it adds, changes, and leaves as they are."""

    changes: dict[str, list[Change]] = field(
        default_factory=lambda: {"animals": [], "placements": [], "measurements": []}
    )
    added: int = 0
    updated: int = 0
    unchanged: int = 0
    ancestors: int = 0


def plan_sheet(
    rows: Sequence[NounRow], kin: Mapping[str, KinRow], book: BookRows, today: date
) -> SheetPlan:
    """Compare checked rows with the book."""
    plan, roles = SheetPlan(), named_parents(kin)
    for row in rows:
        fold = row.values["tag"].casefold()
        changes = _changes(row, roles.pop(fold, None), book, today)
        for noun, found in changes.items():
            plan.changes[noun].append(found)
        if fold not in book.animals:
            plan.added += 1
        elif changes:
            plan.updated += 1
        else:
            plan.unchanged += 1
    for fold, parent in roles.items():
        if parent.recorded:
            plan.changes["animals"].append(Change({"sex": parent.sex}, book.animals[fold]))
            plan.updated += 1
        else:
            gone_on = parent.last_pup_born or today
            gone = {"status": "gone", "ended_on": gone_on, "note": ANCESTOR_NOTE}
            ancestor = new_row(ANIMALS, {"tag": parent.tag, "sex": parent.sex, **gone})
            plan.changes["animals"].append(ancestor)
            plan.added += 1
            plan.ancestors += 1
    return plan


def _changes(
    row: NounRow, role: NamedParent | None, book: BookRows, today: date
) -> dict[str, Change]:
    fold = row.values["tag"].casefold()
    known = book.animals.get(fold)
    values = animal_values(row, known, today)
    if role:
        values["sex"] = role.sex
    status = values.get("status", known.values["status"] if known else "present")
    found = {
        "animals": change(ANIMALS, values, known),
        "measurements": _measurement(row, book.measurements.get(fold, ()), values, today),
        "placements": _placement(row, fold, book, today) if status == "present" else None,
    }
    return {noun: made for noun, made in found.items() if made}


def _measurement(
    row: NounRow, before: Sequence[NounRow], values: Mapping[str, object], today: date
) -> Change | None:
    """What was measured, unless the book has it; without a day it is the last that can be."""
    sizes = {name: row.values[column] for column, name in _SIZES.items() if column in row.values}
    day = row.values.get("measured_on")
    on = day.first if day else values.get("ended_on") or today
    same_day = [known for known in before if known.values["measured_on"] == on]
    compared = same_day if day else before[-1:]
    if not sizes or any(sizes.items() <= known.values.items() for known in compared):
        return None
    keys = {"animal": row.values["tag"], "measured_on": on}
    booked = same_day[0] if same_day else None
    return change(BY_NAME["measurements"], keys | sizes, booked)


def _placement(row: NounRow, fold: str, book: BookRows, today: date) -> Change | None:
    tank = row.values.get("tank")
    if tank is None or tank.casefold() not in book.tanks or fold in book.places:
        return None
    values = {"animal": row.values["tag"], "tank": tank, "entered_on": today}
    return new_row(BY_NAME["placements"], values)
