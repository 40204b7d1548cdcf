"""The due windows of all dams who are here, in the light of every recorded gestation."""

from collections import defaultdict
from collections.abc import Mapping
from datetime import date

from colony.planning.gestation import Carried, DueWindow, Past, due_window
from colony.store.readers.dams import DamRecord
from colony.store.readers.herd import Herd
from colony.store.readers.lives import Lives


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
    past = _past_gestations(herd, dams, lives)
    found = {}
    for dam_id, record in dams.items():
        row = herd.by_id(dam_id)
        if row.status != "present":
            continue
        window = due_window(
            lives.of(row.species).gestation(),
            record.evidence(row.tag, today),
            past[row.species],
            today=today,
            filter_weeks=filter_weeks,
        )
        if window is not None:
            found[dam_id] = window
    return found


def _past_gestations(
    herd: Herd, dams: Mapping[int, DamRecord], lives: Lives
) -> Mapping[str | None, Past]:
    past: dict[str | None, list[Carried]] = defaultdict(list)
    for dam_id, record in dams.items():
        row = herd.by_id(dam_id)
        past[row.species].extend(record.carried(row.tag, lives.of(row.species).gestation()))
    return {
        species: Past.weigh(lives.of(species).gestation(), own) for species, own in past.items()
    }
