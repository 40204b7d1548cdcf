"""Take the settings and the species of an exported colony into the book."""

from sqlmodel import Session, select

from colony.exchange.folder.colony_toml import ColonyHeading
from colony.exchange.folder.noun import SpeciesValues
from colony.records import LifeHistory, Setting, Species
from colony.records.species import TRAITS
from colony.refusals.animals import NoSuchTrait
from colony.store.settings import write_setting


def write_heading(session: Session, heading: ColonyHeading, *, dry_run: bool) -> int:
    """Set what the folder has otherwise than the book, and say how many that are.

    Raises
    ------
    UnknownSetting, BadSetting, NoSuchTrait
        The folder has a setting or a number that books do not have.
    """
    booked = {setting.key: setting.value for setting in session.exec(select(Setting))}
    settings = {k: v for k, v in heading.settings.items() if booked.get(k) != v}
    for key, value in settings.items() if not dry_run else ():
        write_setting(session, key, value)
    return len(settings) + sum(
        _write_species(session, name, values, dry_run=dry_run)
        for name, values in heading.species.items()
    )


def _write_species(session: Session, name: str, values: SpeciesValues, *, dry_run: bool) -> int:
    for trait in values.traits:
        if trait not in TRAITS:
            raise NoSuchTrait(trait, list(TRAITS))
    known = session.exec(select(Species).where(Species.name == name)).first()
    species = known or Species(name=name, scientific_name=values.scientific_name or name)
    names = {
        key: value
        for key in ("scientific_name", "english_name")
        if (value := getattr(values, key)) not in (None, getattr(species, key))
    }
    numbers = session.exec(select(LifeHistory).where(LifeHistory.species_id == species.id))
    booked = {number.trait: number for number in numbers}
    traits = {
        trait: value
        for trait, value in values.traits.items()
        if trait not in booked or value != (booked[trait].number, booked[trait].source)
    }
    changed = bool(names) or bool(traits) or known is None
    if changed and not dry_run:
        for key, value in names.items():
            setattr(species, key, value)
        session.add(species)
        session.flush()
        _write_traits(session, species.id or 0, booked, traits)
    return int(changed)


def _write_traits(
    session: Session,
    species_id: int,
    booked: dict[str, LifeHistory],
    traits: dict[str, tuple[float, str]],
) -> None:
    for trait, (number, source) in traits.items():
        row = booked.get(trait) or LifeHistory(
            species_id=species_id, trait=trait, number=number, source=source
        )
        row.number, row.source = number, source
        session.add(row)
    session.flush()
