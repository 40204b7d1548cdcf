"""The species and life-history numbers that a new book begins with."""

import tomllib
from importlib.resources import files
from typing import Any

from sqlmodel import Session

from colony.records import LifeHistory, Species
from colony.records.species import TRAITS
from colony.store.journal.journal import Recorder, tell
from colony.store.journal.writing import BEGIN_ACT, write_entry


def write_first_species(session: Session) -> None:
    """Write the first species into a new book, as its first act."""
    recorder = Recorder(session)
    for name, facts in first_species().items():
        _write(session, name, facts)
    tell(session, "A new book, with the species known from print.")
    write_entry(session, BEGIN_ACT, recorder)


def first_species() -> dict[str, dict[str, Any]]:
    """Each species by name: its names, and its traits as (number, source)."""
    return tomllib.loads(
        files("colony.store.schema").joinpath("first_species.toml").read_text("utf-8")
    )


def _write(session: Session, name: str, facts: dict[str, Any]) -> None:
    species = Species(
        name=name, scientific_name=facts["scientific_name"], english_name=facts["english_name"]
    )
    session.add(species)
    session.flush()
    assert species.id is not None  # noqa: S101 - the flush gave it one
    for trait in TRAITS.keys() & facts.keys():
        number, source = facts[trait]
        session.add(LifeHistory(species_id=species.id, trait=trait, number=number, source=source))
    session.flush()
