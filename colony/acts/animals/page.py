"""One animal's page: everything on record of it."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from typing import Any

from sqlalchemy.orm import aliased
from sqlmodel import Session, col, select

from colony.notation.fields.animals import ANIMAL_DETAILS
from colony.records import (
    Animal,
    Feeding,
    Hold,
    Litter,
    Measurement,
    Overruling,
    Placement,
    Tank,
)
from colony.store.lookup import find_animal
from colony.store.readers.animals.herd import read_places
from colony.store.readers.animals.listed import age_days
from colony.store.readers.orders.kept import read_kept
from colony.store.readers.pedigree import read_lineage


@dataclass(frozen=True)
class AnimalDetails:
    """Everything on record of one animal: its facts by the names of the catalogue, and the rest."""

    facts: Mapping[str, Any]
    age_days: int | None
    litter: str | None
    inbreeding: float
    inbreeding_low: float
    inbreeding_high: float
    completeness: float
    tank: str | None
    pups: list[str]
    widths: list[dict[str, Any]]
    placements: list[dict[str, Any]]
    feedings: list[dict[str, Any]]
    holds: list[dict[str, Any]]
    done_anyway: list[dict[str, Any]]

    @property
    def tag(self) -> str:
        """What is written on its tank."""
        return str(self.facts["tag"])

    @property
    def document(self) -> dict[str, Any]:
        """All of it by key: the facts stand beside the rest."""
        rest = {name: value for name, value in vars(self).items() if name != "facts"}
        return {**self.facts, **rest}


def show_animal(session: Session, *, tag: str, today: date) -> AnimalDetails:
    """One animal's page; `NoSuchTag` where there is none."""
    animal = find_animal(session, tag)
    lineage = read_lineage(session)
    assert animal.id is not None  # noqa: S101 - it was found in the book
    row = lineage.herd.by_id(animal.id)
    kin = lineage.range_of([animal.id])[0]
    kept = read_kept(session, today)
    facts = {
        "species": row.species,
        "born": str(row.birthday) if row.birthday else None,
        "dam": lineage.parents.tag(lineage.parents.dam_id(row)),
        "sires": lineage.parents.written(lineage.parents.sires(row)),
        "reserved_for": kept[animal.id].buyer if animal.id in kept else None,
    }
    litter = session.get(Litter, animal.litter_id) if animal.litter_id else None
    names = (field.name for field in ANIMAL_DETAILS)
    return AnimalDetails(
        {name: facts[name] if name in facts else getattr(animal, name) for name in names},
        age_days=age_days(row.birthday, animal.ended_on or today),
        litter=litter.code if litter else None,
        inbreeding=kin.inbreeding,
        inbreeding_low=kin.low,
        inbreeding_high=kin.high,
        completeness=kin.completeness,
        tank=read_places(session, today).get(animal.id),
        pups=lineage.pups_of(animal.id),
        **_history(session, animal.id),
    )


def _history(session: Session, animal_id: int) -> dict[str, Any]:
    widths = session.exec(
        select(Measurement)
        .where(Measurement.animal_id == animal_id)
        .order_by(col(Measurement.measured_on))
    )
    placements = session.exec(
        select(Placement, Tank.code)
        .join(Tank, col(Placement.tank_id) == col(Tank.id))
        .where(Placement.animal_id == animal_id)
        .order_by(col(Placement.entered_on))
    )
    feedings = session.exec(
        select(Feeding).where(Feeding.animal_id == animal_id).order_by(col(Feeding.fed_on))
    )
    holds = session.exec(
        select(Hold).where(Hold.animal_id == animal_id).order_by(col(Hold.started))
    )
    other = aliased(Animal)
    overrulings = session.exec(
        select(Overruling, Animal.tag, other.tag)
        .join(Animal, col(Overruling.animal_id) == col(Animal.id))
        .join(other, col(Overruling.other_id) == col(other.id), isouter=True)
        .where((col(Overruling.animal_id) == animal_id) | (col(Overruling.other_id) == animal_id))
        .order_by(col(Overruling.decided_on), col(Overruling.id))
    )
    return {
        "done_anyway": [
            {
                "on": row.decided_on,
                "act": row.act,
                "with": [tag for tag in tags if tag],
                "what": row.what,
                "why": row.why,
            }
            for row, *tags in overrulings
        ],
        "widths": [
            {
                "on": width.measured_on,
                "disc_width_mm": width.width_mm,
                "mass_g": width.mass_g,
                "note": width.note,
            }
            for width in widths
        ],
        "placements": [
            {"tank": code, "entered_on": placement.entered_on, "left_on": placement.left_on}
            for placement, code in placements
        ],
        "feedings": [
            {"on": feeding.fed_on, "food": feeding.food, "took": feeding.took}
            for feeding in feedings
        ],
        "holds": [{"from": hold.started, "to": hold.ended, "why": hold.why} for hold in holds],
    }
