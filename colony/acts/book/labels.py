"""What the rows of the book are called in plain files, and the names that stand beside them."""

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from typing import Any

from sqlmodel import Session, col, select

from colony.exchange.folder.noun import joined
from colony.exchange.folder.nouns import NOUNS, REFERRED
from colony.notation.fields.orders import PERSONAL
from colony.notation.shares import SireShare
from colony.records import (
    Buyer,
    Order,
    PairingSire,
    Person,
    PossibleSire,
    Reservation,
    Species,
    VetPatient,
)

_OWN_NAME = {
    noun.name: noun.label
    for noun in NOUNS
    if noun.name in REFERRED and len(noun.labels) == 1 and noun.column(noun.label).kind != "label"
}
"""The nouns whose rows have a name of their own, and where it stands."""

Names = Mapping[str, Mapping[int, str]]


@dataclass(frozen=True)
class Labels:
    """What rows are called in files, by noun and id, and the animals that stand beside them.

    `beside` has them by (noun, column) and id.
    """

    names: Names
    beside: Mapping[tuple[str, str], Mapping[int, Sequence[Any]]]


def read_labels(session: Session, records: Mapping[str, list[Any]]) -> Labels:
    """Name every row that other rows refer to."""
    names = read_names(session, records)
    of_litter, of_animal = _possible_sires(session, names["animals"])
    return Labels(
        names,
        {
            ("litters", "sires"): of_litter,
            ("animals", "possible_sires"): of_animal,
            ("pairings", "sires"): _males(session, names["animals"]),
            ("vet_visits", "animals"): _patients(session, names["animals"]),
            ("animals", "reserved_for"): _kept_for(session, records["animals"]),
            **_personal(session, records["buyers"]),
        },
    )


def read_names(session: Session, records: Mapping[str, list[Any]]) -> Names:
    """What each row is called, by noun and id."""
    names = {
        noun: {record.id: getattr(record, column) for record in records[noun]}
        for noun, column in _OWN_NAME.items()
    }
    names["species"] = {row.id or 0: row.name for row in session.exec(select(Species))}
    names["food_batches"] = {
        record.id: joined(names["foods"][record.food_id], record.code)
        for record in records["food_batches"]
    }
    tags = names["animals"]
    names["pairings"] = _told_apart(
        (record.id, tags[record.dam_id], record.started) for record in records["pairings"]
    )
    names["vet_visits"] = _told_apart(
        (record.id, record.vet, record.visited_on) for record in records["vet_visits"]
    )
    return names


def _told_apart(rows: Iterable[tuple[int, str, date]]) -> dict[int, str]:
    """A row is called by a name and its first day, and by its number where two began then."""
    seen: dict[str, int] = defaultdict(int)
    labels = {}
    for id_, name, day in rows:
        label = f"{name} {day}"
        seen[label.casefold()] += 1
        count = seen[label.casefold()]
        labels[id_] = label if count == 1 else f"{label} #{count}"
    return labels


def _possible_sires(
    session: Session, tags: Mapping[int, str]
) -> tuple[dict[int, tuple[SireShare, ...]], dict[int, tuple[SireShare, ...]]]:
    of_litter: dict[int, tuple[SireShare, ...]] = defaultdict(tuple)
    of_animal: dict[int, tuple[SireShare, ...]] = defaultdict(tuple)
    for row in session.exec(select(PossibleSire).order_by(col(PossibleSire.id))):
        share = SireShare(tags.get(row.sire_id or 0), row.share)
        if row.litter_id is not None:
            of_litter[row.litter_id] += (share,)
        elif row.animal_id is not None:
            of_animal[row.animal_id] += (share,)
    return of_litter, of_animal


def _personal(session: Session, buyers: Sequence[Any]) -> dict[tuple[str, str], Mapping[int, Any]]:
    """What is personal of each buyer who is not forgotten."""
    people = {person.id: person for person in session.exec(select(Person))} if buyers else {}
    known = {buyer.id: people[buyer.person_id] for buyer in buyers if buyer.person_id in people}
    return {
        ("buyers", field.name): {id_: getattr(person, field.name) for id_, person in known.items()}
        for field in PERSONAL
    }


def _kept_for(session: Session, animals: Sequence[Any]) -> dict[int, str]:
    """For whom each animal is kept: by a reservation, or by the name that an older book has."""
    written = {row.id: row.reserved_for for row in animals if row.reserved_for}
    kept = (
        select(Reservation.animal_id, Buyer.code, Person.name)
        .join(Order, col(Reservation.order_id) == col(Order.id))
        .join(Buyer, col(Order.buyer_id) == col(Buyer.id))
        .join(Person, col(Buyer.person_id) == col(Person.id), isouter=True)
        .where(col(Reservation.ended_on).is_(None))
    )
    return written | {animal: name or code for animal, code, name in session.exec(kept)}


def _males(session: Session, tags: Mapping[int, str]) -> dict[int, tuple[str, ...]]:
    males: dict[int, tuple[str, ...]] = defaultdict(tuple)
    for male in session.exec(select(PairingSire).order_by(col(PairingSire.id))):
        males[male.pairing_id] += (tags[male.sire_id],)
    return males


def _patients(session: Session, tags: Mapping[int, str]) -> dict[int, tuple[str, ...]]:
    patients: dict[int, tuple[str, ...]] = defaultdict(tuple)
    for patient in session.exec(select(VetPatient).order_by(col(VetPatient.id))):
        patients[patient.visit_id] += (tags[patient.animal_id],)
    return patients
