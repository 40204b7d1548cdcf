"""What the book says already, as the values that a file is checked against."""

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass, field

from sqlmodel import Session, col, select

from colony.exchange.sheet.known import ANCESTOR_NOTE, KnownAnimal, KnownBook
from colony.notation.days import Day
from colony.notation.shares import SireShare
from colony.records import Animal, Litter, Placement, PossibleSire, Species, Tank

Sires = dict[int, list[tuple[int | None, float]]]


@dataclass
class BookRows:
    """The records of the book that an import may touch, found by what a file calls them."""

    animals: dict[str, Animal]
    places: dict[int, tuple[Placement, str]]
    tank_ids: dict[str, int]
    tank_codes: dict[str, str]
    species: dict[str, str]
    species_ids: dict[str, int]
    sires_of_animal: Sires
    sires_of_litter: Sires
    litters: dict[int, Litter]
    tags: dict[int, str] = field(init=False)

    def __post_init__(self) -> None:
        self.tags = {a.id: a.tag for a in self.animals.values() if a.id is not None}


def read_rows(session: Session) -> BookRows:
    """Read what there is; one query a table."""
    animals = {animal.tag.casefold(): animal for animal in session.exec(select(Animal))}
    tanks = [tank for tank in session.exec(select(Tank)) if tank.retired_on is None]
    codes = {tank.id: tank.code for tank in tanks}
    species = session.exec(select(Species)).all()
    of_animal, of_litter = _possible_sires(session)
    return BookRows(
        animals=animals,
        places={
            place.animal_id: (place, codes.get(place.tank_id, ""))
            for place in session.exec(select(Placement).where(col(Placement.left_on).is_(None)))
        },
        tank_ids={tank.code.casefold(): tank.id for tank in tanks if tank.id is not None},
        tank_codes={tank.code.casefold(): tank.code for tank in tanks},
        species=_species_words(species),
        species_ids={one.name: one.id for one in species if one.id is not None},
        sires_of_animal=of_animal,
        sires_of_litter=of_litter,
        litters={one.id: one for one in session.exec(select(Litter)) if one.id is not None},
    )


def known_book(rows: BookRows) -> KnownBook:
    """The book as plain values."""
    return KnownBook(
        {fold: _known(animal, rows) for fold, animal in rows.animals.items()},
        rows.tank_codes,
    )


def sires_of(animal: Animal, rows: BookRows) -> tuple[SireShare, ...]:
    """Who may be the sire of an animal, by tag: settled, of its own, or of its litter."""
    if animal.sire_id is not None:
        return (SireShare(rows.tags[animal.sire_id], 1.0),)
    found = rows.sires_of_animal.get(animal.id or 0) or rows.sires_of_litter.get(
        animal.litter_id or 0, []
    )
    return tuple(SireShare(rows.tags[sire] if sire else None, share) for sire, share in found)


def dam_of(animal: Animal, rows: BookRows) -> str | None:
    """The dam of an animal, by tag, from its litter or its own row."""
    litter = rows.litters.get(animal.litter_id or 0)
    dam_id = litter.dam_id if litter else animal.dam_id
    return rows.tags[dam_id] if dam_id else None


def _known(animal: Animal, rows: BookRows) -> KnownAnimal:
    place = rows.places.get(animal.id or 0)
    return KnownAnimal(
        tag=animal.tag,
        sex=animal.sex,
        born=Day(animal.born, animal.born_precision) if animal.born else None,
        status=animal.status,
        ended_on=animal.ended_on,
        dam=dam_of(animal, rows),
        sires=sires_of(animal, rows),
        in_litter=animal.litter_id is not None,
        tank=place[1] if place else None,
        transponder=animal.transponder,
        only_named=animal.note == ANCESTOR_NOTE,
    )


def _species_words(species: Sequence[Species]) -> dict[str, str]:
    """Every way to write a species: its word, its English name, ``P. motoro`` and in full."""
    words: dict[str, str] = {}
    for one in species:
        genus, _, epithet = one.scientific_name.partition(" ")
        written = (one.english_name, f"{genus[:1]}. {epithet}", one.scientific_name, one.name)
        words |= {text.casefold(): one.name for text in written if text}
    return words


def _possible_sires(session: Session) -> tuple[Sires, Sires]:
    of_animal: Sires = defaultdict(list)
    of_litter: Sires = defaultdict(list)
    for row in session.exec(select(PossibleSire).order_by(col(PossibleSire.id))):
        if row.animal_id is not None:
            of_animal[row.animal_id].append((row.sire_id, row.share))
        elif row.litter_id is not None:
            of_litter[row.litter_id].append((row.sire_id, row.share))
    return of_animal, of_litter
