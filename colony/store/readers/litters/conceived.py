"""Which young may have been conceived before their dam came into the house."""

from dataclasses import dataclass, field
from datetime import timedelta

from sqlalchemy import select
from sqlmodel import Session, col

from colony.records import Animal, Litter, Species
from colony.store.readers.animals.lives import read_lives
from colony.store.readers.rows import read_rows


@dataclass(frozen=True)
class ConceivedElsewhere:
    """Litters by their id, of dams that came from outside.

    Of `maybe` some day of conception lies before her arrival. Of `wild` all do, she was taken
    from the wild, and no other keeper is named: the mating was in the wild.
    """

    maybe: set[int] = field(default_factory=set)
    wild: set[int] = field(default_factory=set)


def read_conceived_elsewhere(session: Session) -> ConceivedElsewhere:
    """Hold the birth of each litter against the arrival of its dam, by the gestation of her species."""
    lives, found = read_lives(session), ConceivedElsewhere()
    query = (
        select(
            col(Litter.id),
            col(Litter.born),
            col(Animal.arrived),
            col(Animal.arrived_from),
            col(Animal.origin),
            col(Species.name),
        )
        .join(Animal, col(Litter.dam_id) == col(Animal.id))
        .join(Species, col(Animal.species_id) == col(Species.id), isouter=True)
        .where(col(Animal.arrived).is_not(None), col(Animal.origin) != "born here")
    )
    for litter, born, arrived, keeper, origin, species in read_rows(session, query):
        prior = lives.of(species).gestation()
        earliest = born - timedelta(days=round(prior.high_days))
        latest = born - timedelta(days=round(prior.low_days))
        if arrived is None or litter is None or earliest >= arrived:
            continue
        if latest < arrived and origin == "wild" and not keeper:
            found.wild.add(litter)
        else:
            found.maybe.add(litter)
    return found
