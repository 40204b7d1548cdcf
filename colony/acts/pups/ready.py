"""Which pups are ready for sale, and when the others will be."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from datetime import date

from sqlmodel import Session

from colony.planning.pups.gates import PupFacts, ReadyRules
from colony.planning.pups.readiness import (
    Readiness,
    by_date,
    is_ready,
    readiness,
    ready_by_week,
)
from colony.store.lookup import find_species
from colony.store.readers.animals.herd import read_herd
from colony.store.readers.animals.lives import Lives, read_lives
from colony.store.readers.pups.growing import read_pups


@dataclass(frozen=True)
class ReadyCount:
    """So many pups of a species and sex."""

    species: str
    sex: str
    pups: int


@dataclass(frozen=True)
class ReadyWeek:
    """The pups that become ready in the week that begins on a day."""

    begins: date
    pups: int
    counts: tuple[ReadyCount, ...]


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
    if not everybody:
        growing = [
            pup
            for pup in growing
            if is_ready(pup, _rules(lives, pup, min_age_days, min_width_mm), today)
        ]
    else:
        from colony.acts.pups.growth_curves import with_curves  # noqa: PLC0415 - loads numpy
        from colony.store.readers.pups.growth import read_growth  # noqa: PLC0415 - the same

        growing = with_curves(growing, read_growth(session, read_herd(session), lives, today))
    return by_date(
        readiness(pup, _rules(lives, pup, min_age_days, min_width_mm), today) for pup in growing
    )


def ready_of(pups: Iterable[PupFacts], lives: Lives, today: date) -> list[Readiness]:
    """Those of some pups that are ready by their species' own gates, the first ready first."""
    tried = ((pup, _rules(lives, pup, None, None)) for pup in pups)
    return by_date(
        readiness(pup, rules, today) for pup, rules in tried if is_ready(pup, rules, today)
    )


def count_by_week(pups: Sequence[Readiness], *, today: date, weeks: int = 12) -> list[ReadyWeek]:
    """How many become ready in each of the next weeks; the first week holds the ready ones."""
    return [
        ReadyWeek(
            week.begins,
            week.total,
            tuple(ReadyCount(*kind, count) for kind, count in sorted(week.counts.items())),
        )
        for week in ready_by_week(pups, today, weeks)
    ]


def _rules(
    lives: Lives, pup: PupFacts, min_age_days: int | None, min_width_mm: int | None
) -> ReadyRules:
    rules = lives.of(pup.species or None).ready_rules()
    if min_age_days is not None:
        rules = replace(rules, min_age_days=min_age_days)
    return rules if min_width_mm is None else replace(rules, min_width_mm=min_width_mm)
