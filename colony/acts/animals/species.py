"""Species of the book and their life-history numbers, each with its source."""

from dataclasses import dataclass
from math import isfinite

from sqlmodel import Session, col, func, select

from colony.records import LifeHistory, Species
from colony.records.species import TRAITS
from colony.refusals.animals import NoSuchTrait, NotATraitNumber, SpeciesTaken
from colony.store.journal.journal import tell
from colony.store.lookup import find_species


@dataclass(frozen=True)
class Trait:
    """One number of a species and its source."""

    trait: str
    meaning: str
    number: float
    source: str


@dataclass(frozen=True)
class SpeciesPage:
    """A species and what the book knows of its life."""

    species: str
    scientific_name: str
    english_name: str | None
    traits: tuple[Trait, ...]


def list_species(session: Session) -> list[SpeciesPage]:
    """Every species of the book."""
    return [
        _page(session, species)
        for species in session.exec(select(Species).order_by(col(Species.id)))
    ]


def show_species(session: Session, *, name: str) -> SpeciesPage:
    """One species; `NoSuchSpecies` where there is none."""
    return _page(session, find_species(session, name))


def add_species(
    session: Session, *, name: str, scientific_name: str, english_name: str | None = None
) -> SpeciesPage:
    """Add a species; its numbers are the family's until they are set.

    Raises
    ------
    SpeciesTaken
    """
    if session.exec(select(Species).where(func.lower(Species.name) == func.lower(name))).first():
        raise SpeciesTaken(name)
    species = Species(name=name, scientific_name=scientific_name, english_name=english_name)
    session.add(species)
    session.flush()
    tell(session, f"species {name} was added")
    return _page(session, species)


def set_trait(
    session: Session, *, name: str, trait: str, number: float, source: str
) -> SpeciesPage:
    """Set a life-history number of a species, and say where it comes from.

    Raises
    ------
    NoSuchSpecies, NoSuchTrait, NotATraitNumber
    """
    species = find_species(session, name)
    if trait not in TRAITS:
        raise NoSuchTrait(trait, list(TRAITS))
    if not isfinite(number) or number <= 0:
        raise NotATraitNumber(trait, number)
    assert species.id is not None  # noqa: S101 - it was found in the book
    row = session.exec(
        select(LifeHistory).where(LifeHistory.species_id == species.id, LifeHistory.trait == trait)
    ).first() or LifeHistory(species_id=species.id, trait=trait, number=number, source=source)
    row.number, row.source = number, source
    session.add(row)
    session.flush()
    tell(session, f"{species.name}: {TRAITS[trait]} is {number:g}")
    return _page(session, species)


def _page(session: Session, species: Species) -> SpeciesPage:
    rows = session.exec(
        select(LifeHistory)
        .where(LifeHistory.species_id == species.id)
        .order_by(col(LifeHistory.id))
    ).all()
    order = list(TRAITS)
    traits = tuple(
        Trait(row.trait, TRAITS[row.trait], row.number, row.source)
        for row in sorted(rows, key=lambda row: order.index(row.trait))
    )
    return SpeciesPage(species.name, species.scientific_name, species.english_name, traits)
