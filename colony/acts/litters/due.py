"""Who is due, by when each nursery has to be set up, and which tank it will be."""

from bisect import bisect_left, bisect_right
from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date
from itertools import accumulate

from sqlmodel import Session

from colony.planning.litters.company import Company
from colony.planning.litters.conception import conception_days
from colony.planning.litters.due_window import DueWindow
from colony.planning.litters.nurseries import (
    NurseryNeed,
    allot_nurseries,
    not_free_in_time,
    nursery_conflicts,
)
from colony.store.readers.animals.herd import read_breeders, read_places
from colony.store.readers.animals.lives import read_lives
from colony.store.readers.litters.company import read_expecting, recent_since
from colony.store.readers.litters.due import due_windows
from colony.store.readers.litters.nurseries import read_nurseries
from colony.store.settings import BookSettings, read_settings


@dataclass(frozen=True)
class DueLitter:
    """One litter that is expected: its window, the day to set up its nursery, and which tank.

    `tank` is where the dam is now. `nursery_tank` is None for a dam only kept with a male, and
    where the house has no nursery; `warnings` say who else wants that nursery.
    """

    dam: str
    sires: list[str]
    earliest: date
    likely: date
    latest: date
    nursery: date
    state: str
    basis: str
    tank: str | None
    nursery_tank: str | None = None
    warnings: tuple[str, ...] = ()


def due_litters(session: Session, *, today: date) -> list[DueLitter]:
    """Every litter that is expected, the first due first, each with a nursery of its own if may be."""
    settings = read_settings(session)
    windows = _windows(session, settings, today)
    nursery, warnings = _nurseries(session, windows, settings, today)
    return [
        replace(litter, nursery_tank=nursery.get(litter.dam), warnings=tuple(warnings[litter.dam]))
        for litter, _ in windows
    ]


def _windows(
    session: Session, settings: BookSettings, today: date
) -> list[tuple[DueLitter, DueWindow]]:
    lives = read_lives(session)
    herd = read_breeders(session, since=recent_since(lives, today))
    dams = read_expecting(session, herd, lives, today)
    places = read_places(session, today)
    windows = due_windows(herd, dams, lives, today=today, filter_weeks=settings.nursery_weeks)
    due = []
    for dam_id, window in windows.items():
        row, record = herd.by_id(dam_id), dams[dam_id]
        evidence = record.evidence(row.tag, today)
        prior = lives.of(row.species).gestation()
        seen = conception_days(evidence, longest_days=prior.high_days, today=today)
        days = seen.weighed() if seen else ()
        sires = _sires(days, record.company)
        tags = [herd.by_id(sire).tag for sire in sires]
        due.append((_due_litter(row.tag, tags, window, places.get(dam_id)), window))
    return sorted(due, key=lambda pair: (pair[0].likely, pair[0].dam))


def _sires(days: Sequence[tuple[int, float]], company: Sequence[Company]) -> list[int]:
    """The males that were with her on a day of conception, the likeliest first."""
    weights: dict[int, float] = defaultdict(float)
    for day, weight in days:
        weights[day] += weight
    ordered = sorted(weights)
    until = list(accumulate((weights[day] for day in ordered), initial=0.0))
    chances = {
        male.male: sum(
            until[bisect_right(ordered, stay.last.toordinal())]
            - until[bisect_left(ordered, stay.first.toordinal())]
            for stay in male.stays
        )
        for male in company
    }
    found = [male for male, chance in chances.items() if chance > 0]
    return sorted(found, key=lambda male: (-chances[male], male))


def _due_litter(dam: str, sires: list[str], window: DueWindow, tank: str | None) -> DueLitter:
    return DueLitter(
        dam=dam,
        sires=sires,
        earliest=window.earliest,
        likely=window.likely,
        latest=window.latest,
        nursery=window.nursery_by,
        state=window.state,
        basis=window.basis,
        tank=tank,
    )


def _nurseries(
    session: Session,
    windows: Sequence[tuple[DueLitter, DueWindow]],
    settings: BookSettings,
    today: date,
) -> tuple[Mapping[str, str], Mapping[str, list[str]]]:
    """Allot a nursery to every litter that is sure to be expected; warn of those that share one."""
    sure = [(litter, window) for litter, window in windows if litter.state != "possible"]
    found = read_nurseries(session, settings, today, due={litter.dam for litter, _ in sure})
    codes = {tank.code for tank in found}
    needs = [
        NurseryNeed(litter.dam, window, litter.tank if litter.tank in codes else "")
        for litter, window in sure
    ]
    claims = allot_nurseries(needs, found, stay_days=settings.nursery_stay_days)
    warnings: dict[str, list[str]] = defaultdict(list)
    conflicts = nursery_conflicts(claims, stay_days=settings.nursery_stay_days)
    for conflict in (*not_free_in_time(claims, found), *conflicts):
        for dam in conflict.dams:
            warnings[dam].append(conflict.sentence)
    return {claim.dam: claim.nursery for claim in claims}, warnings
