"""Who will swim in the house in the weeks to come: residents, expected pups, expected sales."""

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta

from sqlalchemy import func, select
from sqlmodel import Session, col

from colony.planning.growth import GrowthPrior
from colony.planning.housing import GROWING_ROLES, DueLitter, Swimmer, expected_pups, expected_sales
from colony.planning.load import Tank
from colony.planning.readiness import Readiness
from colony.records import Animal, Litter
from colony.store.readers.growth import read_growth
from colony.store.readers.herd import HerdRow, read_herd, read_last_widths_mm
from colony.store.readers.house import House, read_house
from colony.store.readers.lives import Lives, read_lives
from colony.store.settings import read_settings

ADULT_ROLES = frozenset({"breeding"})
SALES_SEEN_DAYS = 84
"""Sales of the last twelve weeks tell how many to expect a week; common practice, no source."""


@dataclass(frozen=True)
class Birth:
    """A litter that is expected: its dam, the likely day, and the tank it will lie in."""

    dam: str
    likely: date
    tank: str


@dataclass(frozen=True)
class Swimmers:
    """All tanks in use, and all who swim or will swim in them."""

    tanks: tuple[Tank, ...]
    swimmers: tuple[Swimmer, ...]


def read_swimmers(
    session: Session,
    *,
    births: Iterable[Birth],
    ready: Iterable[Readiness],
    sales_per_week: float | None,
    today: date,
) -> Swimmers:
    """Read the house of the weeks to come; None for sales takes the rate of the last weeks."""
    herd, lives = read_herd(session), read_lives(session)
    house = read_house(session, lives, read_settings(session), today)
    rate = _sales_a_week(session, today) if sales_per_week is None else sales_per_week
    leaving = expected_sales([one for one in ready if _may_be_sold(one)], rate, today)
    residents = [
        replace(swimmer, leaves=leaving.get(swimmer.tag))
        for swimmer in _residents(session, house, lives, today)
    ]
    size = _litter_sizes(session, lives)
    by_tag = {row.tag: row for row in herd.rows}
    coming = [
        pup
        for birth in births
        for pup in expected_pups(
            _due(birth, size(by_tag[birth.dam].species), _prior(lives, by_tag[birth.dam].species))
        )
    ]
    tanks = tuple(tank.plan for tank in house.tanks.values() if tank.retired_on is None)
    return Swimmers(tanks, (*residents, *coming))


def _residents(session: Session, house: House, lives: Lives, today: date) -> list[Swimmer]:
    herd = read_herd(session)
    growth = read_growth(session, herd, lives, today)
    widths_mm = read_last_widths_mm(session)
    codes = dict(session.execute(select(col(Litter.id), col(Litter.code))).all())
    mothers = _mothers(session, codes)
    found = []
    for animal_id, tank_id in house.tank_of.items():
        row = herd.by_id(animal_id)
        life = lives.of(row.species)
        width_mm = widths_mm[animal_id][1] if animal_id in widths_mm else None
        grown = row.litter_id is None or (width_mm or 0) >= life.mature_width_mm(row.sex)
        found.append(
            Swimmer(
                tag=row.tag,
                tank=house.tanks[tank_id].plan.code,
                curve=growth.colony.curves.get(row.tag),
                disc_width_mm=width_mm,
                litter=codes.get(row.litter_id) or "",
                family=mothers.get(animal_id, ""),
                isolated_until=house.isolated_until(animal_id, row.tag),
                roles=ADULT_ROLES if grown else GROWING_ROLES,
                pinned=grown,
                for_sale=_is_for_sale(row, grown=grown),
            )
        )
    return found


def _is_for_sale(row: HerdRow, *, grown: bool) -> bool:
    return not (grown or row.held_back or row.reserved_for)


def _may_be_sold(one: Readiness) -> bool:
    return bool(one.gates.get("not_held_back")) and bool(one.gates.get("no_hold"))


def _mothers(session: Session, codes: dict[int | None, str]) -> dict[int, str]:
    """The last litter of each dam."""
    query = select(col(Litter.dam_id), col(Litter.id)).order_by(col(Litter.born))
    return {dam: codes[litter] for dam, litter in session.execute(query)}


def _sales_a_week(session: Session, today: date) -> float:
    since = today - timedelta(days=SALES_SEEN_DAYS)
    query = select(func.count()).where(
        col(Animal.status) == "sold", col(Animal.ended_on) > since, col(Animal.ended_on) <= today
    )
    return float(session.execute(query).scalar_one()) * 7 / SALES_SEEN_DAYS


class _LitterSizes:
    """How many pups to expect: the colony's mean of a species, else the middle of its range."""

    def __init__(self, live: Sequence[tuple[str | None, int]], lives: Lives) -> None:
        self._pups: Counter[str | None] = Counter()
        self._litters: Counter[str | None] = Counter()
        for species, pups in live:
            self._pups[species] += pups
            self._litters[species] += 1
        self._lives = lives

    def __call__(self, species: str | None) -> int:
        if self._litters[species]:
            return round(self._pups[species] / self._litters[species])
        traits = self._lives.of(species).traits
        return round((traits["litter_low"] + traits["litter_high"]) / 2)


def _litter_sizes(session: Session, lives: Lives) -> _LitterSizes:
    herd = read_herd(session)
    query = select(col(Litter.dam_id), col(Litter.live))
    return _LitterSizes(
        [(herd.by_id(dam).species, live) for dam, live in session.execute(query)], lives
    )


def _due(birth: Birth, pups: int, prior: GrowthPrior) -> DueLitter:
    return DueLitter(birth.dam, birth.likely, pups, birth.tank, prior)


def _prior(lives: Lives, species: str | None) -> GrowthPrior:
    return lives.of(species).growth("U")
