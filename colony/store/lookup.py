"""Find one record by the word a breeder uses for it, or refuse with the nearest."""

from collections.abc import Sequence

from sqlalchemy import func
from sqlmodel import Session, col, select

from colony.notation.tags import nearest_tags
from colony.records import Animal, Litter, Species, System, Tank
from colony.records.species import FAMILY
from colony.refusals.animals import NoSuchSpecies, NoSuchTag
from colony.refusals.litters import NoPupHere, NoSuchLitter
from colony.refusals.tanks import NoSuchSystem, NoSuchTank

LITTER = "litter"
"""Written before the code of a litter where all its pups are meant."""


def find_animal(session: Session, tag: str) -> Animal:
    """The animal of a tag, whatever its case; `NoSuchTag` names the nearest."""
    animal = seek_animal(session, tag)
    if animal is None:
        raise NoSuchTag(tag, nearest_tags(tag, session.exec(select(Animal.tag)).all()))
    return animal


def seek_animal(session: Session, tag: str) -> Animal | None:
    """The animal of a tag, or None."""
    return session.exec(select(Animal).where(func.lower(Animal.tag) == func.lower(tag))).first()


def find_animals(session: Session, tags: Sequence[str]) -> list[Animal]:
    """The animals of some tags, each once; ``litter 26-01`` is all its pups that are here."""
    words = list(tags)
    found: list[Animal] = []
    while words:
        word = words.pop(0)
        if word.casefold() == LITTER and words:
            found += _pups_here(session, words.pop(0))
        elif word.casefold().startswith(f"{LITTER} "):
            found += _pups_here(session, word[len(LITTER) :].strip())
        else:
            found.append(find_animal(session, word))
    return list({animal.id: animal for animal in found}.values())


def _pups_here(session: Session, code: str) -> Sequence[Animal]:
    litter = find_litter(session, code)
    pups = session.exec(
        select(Animal)
        .where(Animal.litter_id == litter.id, Animal.status == "present")
        .order_by(col(Animal.id))
    ).all()
    if not pups:
        raise NoPupHere(litter.code)
    return pups


def find_tank(session: Session, code: str) -> Tank:
    """The tank of a code, whatever its case; `NoSuchTank` names the nearest."""
    tank = seek_tank(session, code)
    if tank is None:
        raise NoSuchTank(code, nearest_tags(code, session.exec(select(Tank.code)).all()))
    return tank


def seek_tank(session: Session, code: str) -> Tank | None:
    """The tank of a code, or None."""
    return session.exec(select(Tank).where(func.lower(Tank.code) == func.lower(code))).first()


def find_system(session: Session, name: str) -> System:
    """The system of a name, whatever its case; `NoSuchSystem` names all."""
    system = seek_system(session, name)
    if system is None:
        raise NoSuchSystem(name, sorted(session.exec(select(System.name)).all()))
    return system


def seek_system(session: Session, name: str) -> System | None:
    """The system of a name, or None."""
    return session.exec(select(System).where(func.lower(System.name) == func.lower(name))).first()


def find_litter(session: Session, code: str) -> Litter:
    """The litter of a code; `NoSuchLitter` names the nearest."""
    litter = session.exec(select(Litter).where(func.lower(Litter.code) == func.lower(code))).first()
    if litter is None:
        raise NoSuchLitter(code, nearest_tags(code, session.exec(select(Litter.code)).all()))
    return litter


def find_species(session: Session, name: str) -> Species:
    """The species of a short or scientific name (``leopoldi``, ``P. leopoldi``)."""
    known = session.exec(select(Species).order_by(col(Species.id))).all()
    wanted = " ".join(name.split()).casefold()
    for species in known:
        if wanted in _names(species):
            return species
    raise NoSuchSpecies(name, [species.name for species in known if species.name != FAMILY])


def _names(species: Species) -> set[str]:
    genus, _, epithet = species.scientific_name.partition(" ")
    written = (
        species.name,
        species.scientific_name,
        f"{genus[0]}. {epithet}",
        species.english_name,
    )
    return {name.casefold() for name in written if name}
