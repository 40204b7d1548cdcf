"""Who will swim in the house in the weeks to come: residents, expected pups, expected sales."""

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta

from sqlalchemy import func, select
from sqlmodel import Session, col

from colony.planning.pups.readiness import Readiness
from colony.planning.tanks.load import TankFloor
from colony.planning.tanks.occupancy import (
    GROWING_ROLES,
    ExpectedLitter,
    Swimmer,
    due_name,
    expected_pups,
    expected_sales,
)
from colony.records import Animal, Litter
from colony.store.readers.animals.herd import Herd, read_last_widths_mm
from colony.store.readers.animals.lives import Lives
from colony.store.readers.orders.kept import read_kept
from colony.store.readers.pups.growth import Growth
from colony.store.readers.rows import read_rows
from colony.store.readers.tanks.house import TanksOnDay, read_house
from colony.store.settings import BookSettings, read_settings

ADULT_ROLES = frozenset({"breeding"})
GROW_OUT_ROLES = frozenset({"grow-out"})
NURSERY_ROLES = frozenset({"nursery"})
SALES_SEEN_DAYS = 84
"""Sales of the last twelve weeks tell how many to expect a week; common practice, no source."""


@dataclass(frozen=True)
class Birth:
    """A litter that is expected: its dam, the likely day, and the nursery it will lie in."""

    dam: str
    likely: date
    tank: str


@dataclass(frozen=True)
class Swimmers:
    """All tanks in use, and all who swim or will swim in them."""

    tanks: tuple[TankFloor, ...]
    swimmers: tuple[Swimmer, ...]


@dataclass(frozen=True)
class Colony:
    """Everybody, the life of each species, and how the colony grows: read once for all."""

    herd: Herd
    lives: Lives
    growth: Growth


def read_swimmers(
    session: Session,
    colony: Colony,
    *,
    births: Iterable[Birth],
    leaving: Mapping[str, date],
    today: date,
) -> Swimmers:
    """Read the house of the weeks to come, with who is expected to leave on which day, by tag."""
    settings = read_settings(session)
    house = read_house(session, colony.lives, settings, today)
    stay = _Stay(house, settings, today)
    births = tuple(births)
    due = {birth.dam: due_name(birth.dam, birth.likely) for birth in births}
    residents = [
        replace(
            swimmer, leaves=leaving.get(swimmer.tag), family=due.get(swimmer.tag, swimmer.family)
        )
        for swimmer in _residents(session, house, colony, stay, today)
    ]
    tanks = tuple(tank.plan for tank in house.tanks.values() if tank.retired_on is None)
    coming = [
        replace(pup, stays_until=stay.until(birth.likely, birth.tank))
        for birth, pup in _coming(session, colony, births)
    ]
    return Swimmers(tanks, (*residents, *coming))


def read_leaving(
    session: Session, ready: Iterable[Readiness], sales_per_week: float | None, today: date
) -> dict[str, date]:
    """Expect who is sold on which day; None for sales takes the rate of the last weeks."""
    rate = _sales_a_week(session, today) if sales_per_week is None else sales_per_week
    for_sale = [pup for pup in ready if pup.gates.get("not_held_back") and pup.gates.get("no_hold")]
    return expected_sales(for_sale, rate, today)


class _Stay:
    """How long pups stay in a nursery, and where they may be moved afterwards."""

    def __init__(self, house: TanksOnDay, settings: BookSettings, today: date) -> None:
        used = [tank.plan for tank in house.tanks.values() if tank.retired_on is None]
        self._nurseries = {tank.code for tank in used if tank.role in NURSERY_ROLES}
        self._has_grow_out = any(tank.role in GROW_OUT_ROLES for tank in used)
        self._days = timedelta(days=settings.nursery_stay_days)
        self._today = today

    def until(self, born: date | None, tank: str) -> date | None:
        """Say until when a pup is left where it is."""
        return born + self._days if born and tank in self._nurseries else None

    def roles(self, born: date | None, tank: str) -> frozenset[str]:
        """Keep the nurseries for those that are young, where the house has grow-out tanks.

        Who is young elsewhere, left with adults, goes to a nursery first.
        """
        young = born is not None and born + self._days > self._today
        if young:
            in_one = tank in self._nurseries or not self._nurseries
            return GROWING_ROLES if in_one else NURSERY_ROLES
        return GROW_OUT_ROLES if self._has_grow_out else GROWING_ROLES


def _residents(
    session: Session, house: TanksOnDay, colony: Colony, stay: _Stay, today: date
) -> Iterable[Swimmer]:
    widths_mm, kept = read_last_widths_mm(session), read_kept(session, today)
    codes = {
        litter or 0: code
        for litter, code in read_rows(session, select(col(Litter.id), col(Litter.code)))
    }
    births = select(col(Litter.dam_id), col(Litter.id)).order_by(col(Litter.born))
    last_litters = {dam: codes[litter or 0] for dam, litter in read_rows(session, births)}
    for animal_id, tank_id in house.tank_of.items():
        row = colony.herd.by_id(animal_id)
        life = colony.lives.of(row.species)
        width_mm = widths_mm[animal_id][1] if animal_id in widths_mm else None
        grown = row.litter_id is None or (width_mm or 0) >= life.mature_width_mm(row.sex)
        yield Swimmer(
            tag=row.tag,
            tank=house.tanks[tank_id].plan.code,
            curve=colony.growth.colony.curves.get(row.tag),
            disc_width_mm=width_mm,
            litter=codes.get(row.litter_id or 0, ""),
            family=last_litters.get(animal_id, ""),
            isolated_until=house.isolated_until(animal_id, row.tag),
            roles=ADULT_ROLES if grown else stay.roles(row.born, house.tanks[tank_id].plan.code),
            pinned=grown,
            stays_until=None if grown else stay.until(row.born, house.tanks[tank_id].plan.code),
            for_sale=not (grown or row.held_back or animal_id in kept),
        )


def _coming(
    session: Session, colony: Colony, births: Iterable[Birth]
) -> Iterable[tuple[Birth, Swimmer]]:
    query = select(col(Litter.dam_id), col(Litter.live))
    live = [(colony.herd.by_id(dam).species, live) for dam, live in read_rows(session, query)]
    size = _LitterSizes(live, colony.lives)
    by_tag = {row.tag: row for row in colony.herd.rows}
    for birth in births:
        species = by_tag[birth.dam].species
        prior = colony.lives.of(species).growth("U")
        due = ExpectedLitter(birth.dam, birth.likely, size(species), birth.tank, prior)
        yield from ((birth, pup) for pup in expected_pups(due))


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
