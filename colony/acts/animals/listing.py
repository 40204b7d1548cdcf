"""The list of the herd."""

from dataclasses import replace
from datetime import date

from sqlalchemy import ColumnElement
from sqlmodel import Session, col, select

from colony.records import Animal, Measurement
from colony.store.lookup import find_species, find_tank
from colony.store.readers.animals.herd import read_last_widths_mm, read_places
from colony.store.readers.animals.listed import ListedAnimal, Lister
from colony.store.readers.animals.search import AnimalFilter, find_all
from colony.store.readers.pedigree import read_lineage

__all__ = ["AnimalFilter", "ListedAnimal", "list_animals"]


def list_animals(
    session: Session, *, wanted: AnimalFilter, most: int | None = None, today: date
) -> tuple[list[ListedAnimal], int]:
    """The herd, narrowed by what is wanted, in the order in which it was written down.

    At most so many animals, and how many more there are.

    Raises
    ------
    NoSuchSpecies, NoSuchTank
    """
    if wanted.species:
        wanted = replace(wanted, species=find_species(session, wanted.species).name)
    if wanted.tank:
        wanted = replace(wanted, tank=find_tank(session, wanted.tank).code)
    ids = find_all(session, wanted, today)
    shown = ids[:most]
    lineage = read_lineage(session)
    widths_mm = read_last_widths_mm(session, *_measured(wanted.status))
    lister = Lister(lineage.parents, read_places(session, today), widths_mm, today)
    lines = list(map(lister.listed, shown, lineage.inbreeding(shown)))
    return lines, len(ids) - len(shown)


def _measured(status: str | None) -> tuple[ColumnElement[bool], ...]:
    """Measurements of those of a status only: most of a book is of animals long gone."""
    if status is None:
        return ()
    of_status = select(Animal.id).where(Animal.status == status)
    return (col(Measurement.animal_id).in_(of_status),)
