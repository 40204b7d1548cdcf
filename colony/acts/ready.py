"""Which pups are ready for sale, and when the others will be."""

from collections.abc import Iterable
from dataclasses import replace
from datetime import date

from sqlmodel import Session

from colony.planning.gates import PupFacts, ReadyRules
from colony.planning.readiness import Readiness, by_date, readiness
from colony.store.lookup import find_species
from colony.store.readers.growing import read_pups
from colony.store.readers.lives import Lives, read_lives


def ready_pups(
    session: Session,
    *,
    min_age_days: int | None = None,
    min_width_mm: int | None = None,
    species: str | None = None,
    everybody: bool = False,
    today: date,
) -> list[Readiness]:
    """Try every pup at the gates of readiness, the first ready first.

    A pup is an animal born in a litter of this book that is present and below its mature
    width. `min_age_days` and `min_width_mm` stand in for the species' own gates;
    `everybody` lists also those that are not ready.

    Raises
    ------
    NoSuchSpecies
    """
    name = find_species(session, species).name if species else None
    lives = read_lives(session)
    growing = [facts for facts in read_pups(session, lives, today) if name in {None, facts.species}]
    if everybody:
        from colony.acts.growth_curves import with_curves  # noqa: PLC0415 - loads numpy

        growing = with_curves(session, growing, lives, today)
    pups = [
        readiness(facts, _rules(lives, facts, min_age_days, min_width_mm), today)
        for facts in growing
    ]
    return by_date(pup for pup in pups if everybody or pup.ready)


def ready_of(pups: Iterable[PupFacts], lives: Lives, today: date) -> list[Readiness]:
    """Those of some pups that are ready by their species' own gates, the first ready first."""
    tried = (readiness(pup, _rules(lives, pup, None, None), today) for pup in pups)
    return by_date(pup for pup in tried if pup.ready)


def _rules(
    lives: Lives, pup: PupFacts, min_age_days: int | None, min_width_mm: int | None
) -> ReadyRules:
    rules = lives.of(pup.species or None).ready_rules()
    if min_age_days is not None:
        rules = replace(rules, min_age_days=min_age_days)
    return rules if min_width_mm is None else replace(rules, min_width_mm=min_width_mm)
