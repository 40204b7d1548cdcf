"""The due windows of all dams who are here, in the light of every recorded gestation."""

from collections import defaultdict
from collections.abc import Container, Iterator, Mapping
from datetime import date

from colony.planning.litters.conception import Evidence
from colony.planning.litters.due_window import DueWindow, due_window, likely_birth
from colony.planning.litters.gestation import GestationLength, GestationPrior, Past
from colony.store.readers.animals.herd import Herd
from colony.store.readers.animals.lives import Lives
from colony.store.readers.litters.dams import DamRecord


def due_windows(
    herd: Herd,
    dams: Mapping[int, DamRecord],
    lives: Lives,
    *,
    today: date,
    filter_weeks: int,
) -> dict[int, DueWindow]:
    """Find the window of each dam who may be expecting, by animal id.

    Parameters
    ----------
    filter_weeks
        What a new nursery filter needs to mature.
    """
    past = past_gestations(herd, dams, lives)
    windows = (
        (
            dam,
            due_window(prior, seen, past.get(species, ()), today=today, filter_weeks=filter_weeks),
        )
        for dam, species, prior, seen in _here(herd, dams, lives, today)
    )
    return {dam: window for dam, window in windows if window is not None}


def likely_births(
    herd: Herd, dams: Mapping[int, DamRecord], lives: Lives, *, of: Container[int], today: date
) -> dict[int, date]:
    """The `likely_birth` of each of some dams of whom something was seen, by animal id."""
    past = past_gestations(herd, dams, lives)
    days = (
        (dam, likely_birth(prior, seen, past.get(species) or Past.weigh(prior, ()), today=today))
        for dam, species, prior, seen in _here(herd, dams, lives, today)
        if dam in of
    )
    return {dam: day for dam, day in days if day is not None}


def _here(
    herd: Herd, dams: Mapping[int, DamRecord], lives: Lives, today: date
) -> Iterator[tuple[int, str | None, GestationPrior, Evidence]]:
    """Every dam who is present: her species, its gestation, and what was seen of her."""
    for dam_id, record in dams.items():
        row = herd.by_id(dam_id)
        if row.status == "present":
            evidence = record.evidence(row.tag, today)
            yield dam_id, row.species, lives.of(row.species).gestation(), evidence


def past_gestations(
    herd: Herd, dams: Mapping[int, DamRecord], lives: Lives
) -> Mapping[str | None, Past]:
    """The recorded gestations of each species, weighed."""
    past: dict[str | None, list[GestationLength]] = defaultdict(list)
    for dam_id, record in dams.items():
        row = herd.by_id(dam_id)
        past[row.species].extend(
            record.gestation_lengths(row.tag, lives.of(row.species).gestation())
        )
    return {
        species: Past.weigh(lives.of(species).gestation(), own) for species, own in past.items()
    }
