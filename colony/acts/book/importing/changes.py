"""What an import will change: the difference between the rows of a sheet and the book."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date
from typing import Any

from sqlmodel import Session, col, select

from colony.acts.book.importing.known_book import BookRows, dam_of, sires_of
from colony.exchange.sheet.animals import AnimalRow
from colony.exchange.sheet.kin import KinRow
from colony.exchange.sheet.known import ANCESTOR_NOTE
from colony.exchange.sheet.named_parents import NamedParent, named_parents
from colony.exchange.sheet.rows import same_sires
from colony.notation.fields.animals import ANIMAL_DETAILS
from colony.notation.shares import SireShare
from colony.records import Animal, Measurement

_BY_THEMSELVES = frozenset({"tag", "species", "dam", "sires", "ended_on"})
"""Fields that are compared in ways of their own."""
_AS_NEW = {"status": "present", "ended_on": None, "ended_why": None, "note": None}
_END_NOT_KNOWN = "The day is not known: that of the import stands."


@dataclass
class Change:
    """What one animal will get; whatever is None or empty stays as it is."""

    tag: str
    animal: Animal | None
    facts: dict[str, Any]
    dam: str | None = None
    sires: tuple[SireShare, ...] = ()
    measured: tuple[date, dict[str, int]] | None = None
    tank: str | None = None

    @property
    def changes_something(self) -> bool:
        """Whether the animal is new, or will not be as it was."""
        rest = (self.dam, self.sires, self.measured, self.tank)
        return self.animal is None or bool(self.facts) or any(rest)


@dataclass
class ImportChanges:
    """All changes of one import."""

    changes: list[Change] = field(default_factory=list)
    ancestors: list[Change] = field(default_factory=list)
    unchanged: int = 0

    @property
    def added(self) -> int:
        """Animals that the book does not have yet."""
        return sum(change.animal is None for change in (*self.changes, *self.ancestors))

    @property
    def updated(self) -> int:
        """Animals that the book has otherwise."""
        return sum(change.animal is not None for change in self.changes)


def plan_import(
    session: Session,
    rows: Sequence[AnimalRow],
    kin: Mapping[str, KinRow],
    book: BookRows,
    today: date,
) -> ImportChanges:
    """Compare checked rows with the book."""
    plan, roles = ImportChanges(), named_parents(kin)
    measured = _measured(session, rows)
    for row in rows:
        change = _change(row, book, roles.pop(row.fold, None), measured, today)
        if change.changes_something:
            plan.changes.append(change)
        else:
            plan.unchanged += 1
    for fold, parent in roles.items():
        if parent.recorded:
            animal = book.animals[fold]
            plan.changes.append(Change(animal.tag, animal, {"sex": parent.sex}))
        else:
            plan.ancestors.append(_ancestor(parent, today))
    return plan


def _ancestor(parent: NamedParent, today: date) -> Change:
    facts = {"sex": parent.sex, "status": "gone", "note": ANCESTOR_NOTE}
    return Change(parent.tag, None, facts | {"ended_on": parent.last_pup_born or today})


def _change(
    row: AnimalRow,
    book: BookRows,
    role: NamedParent | None,
    measured: Mapping[int, list[Measurement]],
    today: date,
) -> Change:
    animal = book.animals.get(row.fold)
    facts = _facts(row, animal, book, today)
    if role:
        facts["sex"] = role.sex
    present = facts.get("status", animal.status if animal else "present") == "present"
    change = Change(row.tag, animal, facts)
    change.measured = _new_measurement(row, measured.get(_id(animal), []), facts, today)
    change.tank = _new_tank(row, animal, book) if present else None
    if animal is None:
        change.dam, change.sires = row.dam, row.sires
        return change
    change.facts = {f: v for f, v in facts.items() if getattr(animal, f) != v}
    change.dam = row.dam if _differs(row.dam, dam_of(animal, book)) else None
    change.sires = () if same_sires(row.sires, sires_of(animal, book)) else row.sires
    return change


def _facts(row: AnimalRow, animal: Animal | None, book: BookRows, today: date) -> dict[str, Any]:
    """The columns of the animal's record as the row has them."""
    as_new = animal is not None and animal.note == ANCESTOR_NOTE
    facts: dict[str, Any] = dict(_AS_NEW) if as_new else {}
    for known in ANIMAL_DETAILS:
        if known.name in row.facts and known.name not in _BY_THEMSELVES:
            facts |= known.columns(row.facts[known.name])
    if facts.get("sex") == "U" and animal is not None:
        del facts["sex"]
    if species := row.facts.get("species"):
        facts["species_id"] = book.species_ids[species]
    return facts | _end(row, None if as_new else animal, facts.get("born"), today)


def _end(row: AnimalRow, animal: Animal | None, born: date | None, today: date) -> dict[str, Any]:
    """The day of an end; where none is known, that of the import, and it is said."""
    born = born or (animal.born if animal else None)
    if ended := row.facts.get("ended_on"):
        return {"ended_on": max(ended.first, born or ended.first)}
    gone = row.facts.get("status", "present") != "present"
    if gone and (animal is None or animal.ended_on is None):
        return {"ended_on": today, "ended_why": _END_NOT_KNOWN}
    return {}


def _new_measurement(
    row: AnimalRow, before: Sequence[Measurement], facts: Mapping[str, Any], today: date
) -> tuple[date, dict[str, int]] | None:
    """What was measured, unless the book has it; without a day it is the last that can be."""
    names = {"width": "width_mm", "mass": "mass_g"}
    sizes = {name: row.facts[key] for key, name in names.items() if key in row.facts}
    day = row.facts.get("measured_on")
    on = day.first if day else facts.get("ended_on") or today
    rivals = [m for m in before if m.measured_on == on] if day else list(before[-1:])
    told = any(all(getattr(m, k) == v for k, v in sizes.items()) for m in rivals)
    return None if not sizes or told else (on, sizes)


def _new_tank(row: AnimalRow, animal: Animal | None, book: BookRows) -> str | None:
    tank: str | None = row.facts.get("tank")
    here = tank is not None and tank.casefold() in book.tank_ids
    return tank if here and _id(animal) not in book.places else None


def _measured(session: Session, rows: Sequence[AnimalRow]) -> dict[int, list[Measurement]]:
    """All measurements by animal, oldest first, if the sheet has any."""
    found: dict[int, list[Measurement]] = {}
    if any("width" in row.facts or "mass" in row.facts for row in rows):
        for one in session.exec(select(Measurement).order_by(col(Measurement.measured_on))):
            found.setdefault(one.animal_id, []).append(one)
    return found


def _differs(said: str | None, booked: str | None) -> bool:
    return said is not None and said.casefold() != (booked or "").casefold()


def _id(animal: Animal | None) -> int:
    return (animal.id or 0) if animal else 0
