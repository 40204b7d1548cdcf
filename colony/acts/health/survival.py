"""Survival of the litters by dam, sire, tank of birth and season."""

from collections import defaultdict
from collections.abc import Callable
from dataclasses import dataclass
from datetime import date

from sqlmodel import Session, col, select

from colony.planning.health.survival import AT_DAYS, Lived, SurvivalAt, survival
from colony.records import Animal, Litter, Tank
from colony.refusals.health import NothingToSurvive
from colony.store.readers.animals.herd import HerdRow, read_herd
from colony.store.readers.litters.parents import Parents, read_parents

SEASONS = ("Dec-Feb", "Mar-May", "Jun-Aug", "Sep-Nov")


@dataclass(frozen=True)
class SurvivalLine:
    """One group of pups: how many, how many died, and the share alive at each age (95 %)."""

    group: str
    litters: int
    born_live: int
    born_dead: int
    died: int
    at: tuple[SurvivalAt, ...]


@dataclass(frozen=True)
class _Pup:
    row: HerdRow
    litter: Litter
    lived: Lived


def survival_by(session: Session, *, by: str = "all", today: date) -> list[SurvivalLine]:
    """Follow every pup of a litter from birth to its death, sale or today, in groups.

    `by` is one of `GROUPS`. Pups sold or gone are followed until they left. A litter whose
    sire is in doubt stands under all who may be it.

    Raises
    ------
    NothingToSurvive
    """
    parents = read_parents(session, read_herd(session))
    pups = _pups(session, parents, today)
    if not pups:
        raise NothingToSurvive
    name_of = GROUPS[by](session, parents)
    groups: dict[str, list[_Pup]] = defaultdict(list)
    for pup in pups:
        groups[name_of(pup.litter)].append(pup)
    order = {season: at for at, season in enumerate(SEASONS)}
    return [
        _line(name, groups[name]) for name in sorted(groups, key=lambda n: (order.get(n, 0), n))
    ]


def _pups(session: Session, parents: Parents, today: date) -> list[_Pup]:
    litters = {litter.id: litter for litter in session.exec(select(Litter))}
    last_seen = dict(
        session.exec(
            select(col(Animal.id), col(Animal.last_seen)).where(col(Animal.last_seen).is_not(None))
        ).all()
    )
    pups = []
    for row in parents.herd.rows:
        if row.litter_id is not None:
            litter = litters[row.litter_id]
            days = max(0, ((row.ended_on or today) - litter.born).days)
            seen = last_seen.get(row.id)
            alive = None if seen is None else max(0, (seen - litter.born).days)
            pups.append(_Pup(row, litter, Lived(days, row.status == "died", alive)))
    return pups


def _line(name: str, pups: list[_Pup]) -> SurvivalLine:
    litters = {pup.litter.id: pup.litter for pup in pups}
    return SurvivalLine(
        group=name,
        litters=len(litters),
        born_live=len(pups),
        born_dead=sum(litter.dead for litter in litters.values()),
        died=sum(pup.lived.died for pup in pups),
        at=survival((pup.lived for pup in pups), AT_DAYS),
    )


Naming = Callable[[Litter], str]


def _by_all(_session: Session, _parents: Parents) -> Naming:
    return lambda _litter: "all litters"


def _by_dam(_session: Session, parents: Parents) -> Naming:
    return lambda litter: parents.herd.by_id(litter.dam_id).tag


def _by_sire(_session: Session, parents: Parents) -> Naming:
    def name(litter: Litter) -> str:
        sires = parents.sires_of_litter(litter.id or 0)
        tags = sorted(parents.tag(sire) or "somebody unknown" for sire, _ in sires)
        return " or ".join(tags) or "unknown"

    return name


def _by_tank(session: Session, _parents: Parents) -> Naming:
    codes = dict(session.exec(select(col(Tank.id), col(Tank.code))).all())
    return lambda litter: codes.get(litter.tank_id, "unknown")


def _by_season(_session: Session, _parents: Parents) -> Naming:
    return lambda litter: SEASONS[litter.born.month % 12 // 3]


GROUPS: dict[str, Callable[[Session, Parents], Naming]] = {
    "all": _by_all,
    "dam": _by_dam,
    "sire": _by_sire,
    "tank": _by_tank,
    "season": _by_season,
}
"""How pups can be grouped."""
