"""Who is due, and by when each nursery has to be set up."""

from collections import defaultdict
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date

from sqlmodel import Session

from colony.planning.gestation import Carried, Past, due_window
from colony.store.readers.dams import DamRecord, read_dams, read_pairing_sires
from colony.store.readers.herd import Herd, read_breeders, read_places
from colony.store.readers.lives import Lives, read_lives
from colony.store.settings import read_settings


@dataclass(frozen=True)
class DueLitter:
    """One litter that is expected: its window, and the day to set up its nursery."""

    dam: str
    sires: list[str]
    earliest: date
    likely: date
    latest: date
    nursery: date
    state: str
    basis: str
    tank: str | None


def due_litters(session: Session, *, today: date) -> list[DueLitter]:
    """Every litter that is expected, the first due first."""
    herd, lives, settings = read_breeders(session), read_lives(session), read_settings(session)
    dams, males = read_dams(session, herd), read_pairing_sires(session)
    places, past = read_places(session, today), _past_gestations(herd, lives, dams)
    due = []
    for dam_id, record in dams.items():
        row = herd.by_id(dam_id)
        if row.status != "present":
            continue
        window = due_window(
            lives.of(row.species).gestation(),
            record.evidence(row.tag, today),
            past.get(row.species, ()),
            today=today,
            filter_weeks=settings.nursery_weeks,
        )
        if window is None:
            continue
        pairing = record.pairing_before(today)
        kept_with = males.get(pairing.id, []) if pairing else []
        due.append(
            DueLitter(
                dam=row.tag,
                sires=[herd.by_id(sire).tag for sire in kept_with],
                earliest=window.earliest,
                likely=window.likely,
                latest=window.latest,
                nursery=window.nursery_by,
                state=window.state,
                basis=window.basis,
                tank=places.get(dam_id),
            )
        )
    return sorted(due, key=lambda one: (one.likely, one.dam))


def _past_gestations(
    herd: Herd, lives: Lives, dams: Mapping[int, DamRecord]
) -> dict[str | None, Past]:
    past: dict[str | None, list[Carried]] = defaultdict(list)
    for dam_id, record in dams.items():
        row = herd.by_id(dam_id)
        past[row.species].extend(record.carried(row.tag))
    return {
        species: Past.weigh(lives.of(species).gestation(), carried)
        for species, carried in past.items()
    }
