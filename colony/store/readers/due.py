"""The due windows of all dams who are here, in the light of every recorded gestation."""

from collections import defaultdict
from collections.abc import Mapping
from datetime import date

from colony.planning.conception import Evidence, state_of
from colony.planning.gestation import Carried, DueWindow, GestationPrior, Past, due_window
from colony.store.readers.dams import DamRecord
from colony.store.readers.herd import Herd
from colony.store.readers.lives import Lives


def due_windows(  # noqa: PLR0913 - what the book holds, the day, and which windows are wanted
    herd: Herd,
    dams: Mapping[int, DamRecord],
    lives: Lives,
    *,
    today: date,
    filter_weeks: int,
    only_seen: bool = False,
) -> dict[int, DueWindow]:
    """Find the window of each dam who may be expecting, by animal id.

    Parameters
    ----------
    only_seen
        Leave out those who were kept with a male and nothing more was seen.
    filter_weeks
        What a new nursery filter needs to mature.
    """
    past = _past_gestations(herd, dams, lives)
    found = {}
    for dam_id, record in dams.items():
        row = herd.by_id(dam_id)
        if row.status != "present":
            continue
        prior, evidence = lives.of(row.species).gestation(), record.evidence(row.tag, today)
        if only_seen and _only_kept(evidence, prior, today):
            continue
        window = due_window(
            prior,
            evidence,
            past[row.species],
            today=today,
            filter_weeks=filter_weeks,
        )
        if window is not None:
            found[dam_id] = window
    return found


def _only_kept(evidence: Evidence, prior: GestationPrior, today: date) -> bool:
    return state_of(evidence, longest_days=prior.high_days, today=today) == "possible"


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
